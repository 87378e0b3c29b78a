import fc from 'fast-check';
import { DEFAULT_SITUATIONS, situationCodes, zoneCodes } from './situations.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';

function situationsOf(sketches: readonly PlaySketch[]): (string | null)[] {
  const { codes, names } = situationCodes(chartOf(sketches), DEFAULT_SITUATIONS);
  return Array.from(codes, (code) => names[code] ?? null);
}

describe('situations', () => {
  it.each<[string, PlaySketch]>([
    ['1st and 10', { down: 1, distance: 10 }],
    ['1st and under 10', { down: 1, distance: 5 }],
    ['1st and over 10', { down: 1, distance: 15 }],
    ['2nd and 1-3', { down: 2, distance: 3 }],
    ['2nd and 4-6', { down: 2, distance: 4 }],
    ['2nd and 7-10', { down: 2, distance: 10 }],
    ['2nd and 11 or more', { down: 2, distance: 11 }],
    ['3rd and 1-2', { down: 3, distance: 2 }],
    ['3rd and 3-6', { down: 3, distance: 6 }],
    ['3rd and 7-10', { down: 3, distance: 7 }],
    ['3rd and 11 or more', { down: 3, distance: 25 }],
    ['4th and 1', { down: 4, distance: 1 }],
    ['4th and 2-3', { down: 4, distance: 2 }],
    ['4th and 4-7', { down: 4, distance: 7 }],
    ['4th and 8 or more', { down: 4, distance: 8 }],
    ['goal to go', { down: 3, distance: 4, yardsToGoal: 4 }],
    ['3rd and 3-6', { down: 3, distance: 4, yardsToGoal: 5 }],
  ])('say %s', (expected, sketch) => {
    expect(situationsOf([sketch])).toEqual([expected]);
  });

  it('are unknown without a down or a distance', () => {
    expect(situationsOf([{ down: 2 }, { distance: 7 }, { playType: 'kickoff' }])).toEqual([null, null, null]);
  });

  it('set the first snap of a drive apart, and goal to go before it', () => {
    const first = { down: 1, distance: 10, yardsToGoal: 70 };
    expect(
      situationsOf([
        { ...first, drive: 1 },
        { ...first, drive: 1, yardsToGoal: 55 },
        { playType: 'kickoff', drive: 1 },
        { ...first, drive: 2 },
        { ...first, drive: 3, yardsToGoal: 6, distance: 6 },
      ]),
    ).toEqual(['first snap of a drive', '1st and 10', null, 'first snap of a drive', 'goal to go']);
  });

  it('claim no first snap where a drive is unknown or it is no first down', () => {
    const first = { down: 1, distance: 10, yardsToGoal: 70 };
    expect(situationsOf([{ ...first, drive: 1 }, first, { ...first, drive: 2 }])).toEqual([
      'first snap of a drive',
      '1st and 10',
      '1st and 10',
    ]);
    expect(
      situationsOf([
        { ...first, drive: 1 },
        { ...first, drive: 2, down: 2 },
      ]),
    ).toEqual(['first snap of a drive', '2nd and 7-10']);
  });

  it('follow the order of the game, not of the batch', () => {
    const first = { down: 1, distance: 10, yardsToGoal: 70, drive: 1 };
    expect(
      situationsOf([
        { ...first, order: 2 },
        { ...first, order: 1 },
      ]),
    ).toEqual(['1st and 10', 'first snap of a drive']);
  });

  it('have one name for every code, whatever the bands', () => {
    const bands = fc
      .uniqueArray(fc.integer({ min: 1, max: 99 }), { maxLength: 5 })
      .map((ends) => ends.sort((a, b) => a - b));
    const down = fc.record({ down: fc.integer({ min: 1, max: 4 }), distance: fc.integer({ min: 1, max: 99 }) });
    fc.assert(
      fc.property(bands, bands, bands, fc.array(down, { minLength: 1 }), (second, third, fourth, sketches) => {
        const settings = {
          ...DEFAULT_SITUATIONS,
          secondDownBands: second,
          thirdDownBands: third,
          fourthDownBands: fourth,
        };
        const { codes, names } = situationCodes(chartOf(sketches), settings);
        expect(new Set(names).size).toBe(names.length);
        sketches.forEach((sketch, play) => {
          const ordinal = ['1st', '2nd', '3rd', '4th'][sketch.down - 1] ?? '';
          expect(names[codes[play] ?? -1]?.startsWith(ordinal)).toBe(true);
        });
      }),
    );
  });

  it.each([
    { secondDownBands: [6, 3] },
    { thirdDownBands: [2, 2] },
    { fourthDownBands: [0.5] },
    { firstDownDistance: 0 },
    { zones: [{ name: 'all', upTo: 98 }] },
    { zones: [] },
    { secondDownBands: Array.from({ length: 21 }, (_, place) => place + 1) },
  ])('refuse settings that leave no sensible bands: %j', (parts) => {
    const settings = { ...DEFAULT_SITUATIONS, ...parts };
    const refusal = expect.objectContaining({ code: 'football.invalid_settings' });
    expect(() => situationCodes(chartOf([{}]), settings)).toThrow(refusal);
    expect(() => zoneCodes(chartOf([{}]), settings)).toThrow(refusal);
  });
});

describe('field zones', () => {
  it.each([
    [99, 'backed up'],
    [90, 'backed up'],
    [89, 'own'],
    [60, 'own'],
    [59, 'midfield'],
    [40, 'midfield'],
    [39, 'fringe'],
    [21, 'fringe'],
    [20, 'high red'],
    [11, 'high red'],
    [10, 'low red'],
    [4, 'low red'],
    [3, 'goal line'],
    [1, 'goal line'],
  ])('put %i yards to goal in %s', (yardsToGoal, zone) => {
    const { codes, names } = zoneCodes(chartOf([{ yardsToGoal }]), DEFAULT_SITUATIONS);
    expect(names[codes[0] ?? -1]).toBe(zone);
  });

  it('are unknown without a spot', () => {
    expect([...zoneCodes(chartOf([{}]), DEFAULT_SITUATIONS).codes]).toEqual([-1]);
  });
});
