import fc from 'fast-check';
import {
  columnsFromPlays,
  gatherPlays,
  UNKNOWN_CODE,
  UNKNOWN_NUMBER,
  type ChartedPlay,
  type PlayValue,
} from './play-columns.js';
import { packPlays, packWithPlay, unpackPlays } from './packed-plays.js';
import { PLAY_FIELDS, type PlayField } from './play-fields.js';
import { DomainError } from '../domain-error.js';

const CHART = { chartId: 'chart', gameId: 'game' };

function someValue(field: PlayField): fc.Arbitrary<PlayValue> {
  switch (field.type) {
    case 'number':
      return fc.option(fc.integer({ min: field.minimum, max: field.maximum }));
    case 'choice':
      return fc.option(fc.nat({ max: field.choices.length - 1 }));
    case 'term':
      return fc.option(fc.integer({ min: 1, max: 100_000 }));
    case 'terms':
      return fc.option(fc.array(fc.integer({ min: 1, max: 100_000 }), { maxLength: 6 }));
  }
}

const somePlays: fc.Arbitrary<ChartedPlay[]> = fc
  .array(fc.tuple(fc.boolean(), fc.tuple(...PLAY_FIELDS.map(someValue))), { maxLength: 40 })
  .map((rows) =>
    rows.map(([offenseIsHome, values], place) => ({
      playNumber: place + 1,
      orderInGame: place + 1,
      offenseIsHome,
      values,
    })),
  );

describe('packed plays', () => {
  it('unpack to the very columns that were packed', () => {
    fc.assert(
      fc.property(somePlays, (plays) => {
        const columns = columnsFromPlays(CHART, plays);
        expect(unpackPlays(packPlays(columns), CHART)).toEqual(columns);
      }),
      { numRuns: 50 },
    );
  });

  it('grow by one play, wherever it stands, to the very bytes of all of them packed', () => {
    fc.assert(
      fc.property(somePlays, fc.nat(), (plays, place) => {
        const [added] = plays.splice(place % Math.max(1, plays.length), 1);
        if (added === undefined) return;
        const before = packPlays(columnsFromPlays(CHART, plays));
        const all = [...plays, added].sort((a, b) => a.orderInGame - b.orderInGame);
        expect(packWithPlay(before, CHART, added)).toEqual(packPlays(columnsFromPlays(CHART, all)));
      }),
      { numRuns: 50 },
    );
  });

  it('unpack from the middle of a larger buffer, as a driver hands them out', () => {
    const columns = columnsFromPlays(CHART, [aPlay(), { ...aPlay(), playNumber: 2 }]);
    const pack = packPlays(columns);
    const larger = Buffer.alloc(pack.byteLength + 3);
    larger.set(pack, 1);
    expect(unpackPlays(larger.subarray(1, 1 + pack.byteLength), CHART)).toEqual(columns);
  });

  it.each([
    ['nothing', new Uint8Array(0)],
    ['another format', Uint8Array.from([0x52, 0x42, 99, 0, 0, 0, 0, 0, 0, 0, 0, 0])],
    ['a pack cut short', packPlays(columnsFromPlays(CHART, [aPlay()])).slice(0, -1)],
  ])('refuse %s', (_what, bytes) => {
    expect(() => unpackPlays(bytes, CHART)).toThrow(DomainError);
  });

  it('take one byte a value where the values fit', () => {
    const fields = PLAY_FIELDS.map((field): PlayValue => (field.name === 'yardsGained' ? -7 : null));
    const plays = (count: number): ChartedPlay[] =>
      Array.from({ length: count }, (_, place) => ({ ...aPlay(), playNumber: place + 1, values: fields }));
    const sizeOf = (count: number): number => packPlays(columnsFromPlays(CHART, plays(count))).byteLength;
    const bytesAPlay = 2 + 2 + 1 + 1; // number, order, who has the ball, yards gained
    expect(sizeOf(90) - sizeOf(10)).toBe(80 * bytesAPlay);
  });
});

describe('gathered plays', () => {
  const formation = PLAY_FIELDS.findIndex((field) => field.name === 'formation');
  const yards = PLAY_FIELDS.findIndex((field) => field.name === 'yardsGained');
  const play = (playNumber: number, offenseIsHome: boolean, term: number, gain: number): ChartedPlay => ({
    ...aPlay(),
    playNumber,
    offenseIsHome,
    values: PLAY_FIELDS.map((_, place): PlayValue => (place === formation ? term : place === yards ? gain : null)),
  });
  const first = columnsFromPlays(CHART, [play(1, true, 70, 3), play(2, false, 71, 4), play(3, true, 72, 5)]);
  const second = columnsFromPlays({ chartId: 'other', gameId: 'other' }, [play(1, false, 72, 6)]);

  it('keep the side asked for, and translate terms into one dictionary', () => {
    const batch = gatherPlays(
      [
        { plays: first, offense: 'home' },
        { plays: second, offense: 'away' },
      ],
      ['formation', 'yardsGained'],
      (term) => term,
    );
    const column = batch.code('formation');
    expect(Array.from(column.codes, (code) => column.meanings[code])).toEqual([70, 72, 72]);
    expect([...batch.number('yardsGained').values]).toEqual([3, 5, 6]);
    expect([...batch.chartIndex]).toEqual([0, 0, 1]);
    expect(batch.charts.map((chart) => chart.chartId)).toEqual(['chart', 'other']);
  });

  it('count a mapped term as its starter term and a foreign one as unknown', () => {
    const batch = gatherPlays([{ plays: first, offense: 'both' }], ['formation'], (term) =>
      term === 71 ? 70 : term === 72 ? null : term,
    );
    const column = batch.code('formation');
    expect([...column.codes]).toEqual([0, 0, UNKNOWN_CODE]);
    expect(column.meanings).toEqual([70]);
  });

  it('answer unknown for a field that no play knows', () => {
    const batch = gatherPlays([{ plays: first, offense: 'both' }], ['formation', 'clockSeconds'], (term) => term);
    expect([...batch.number('clockSeconds').values]).toEqual([UNKNOWN_NUMBER, UNKNOWN_NUMBER, UNKNOWN_NUMBER]);
  });

  it('refuse a field that they were gathered without', () => {
    const batch = gatherPlays([{ plays: first, offense: 'both' }], ['formation'], (term) => term);
    expect(() => batch.number('clockSeconds')).toThrow('the batch was gathered without clockSeconds');
  });
});

function aPlay(): ChartedPlay {
  return { playNumber: 1, orderInGame: 1, offenseIsHome: true, values: PLAY_FIELDS.map(() => null) };
}
