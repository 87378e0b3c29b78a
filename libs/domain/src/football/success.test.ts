import fc from 'fast-check';
import { starterVocabulary } from '../charting/vocabulary.js';
import { DEFAULT_SUCCESS_THRESHOLDS, isSuccess, successCodes, type SnapOutcome } from './success.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';

const VOCABULARY = starterVocabulary();

function aSnap(parts: Partial<SnapOutcome>): SnapOutcome {
  return { down: 1, distance: 10, yardsGained: 0, firstDownOrTouchdown: false, turnover: false, ...parts };
}

const someSnap = fc.record({
  down: fc.integer({ min: 1, max: 4 }),
  distance: fc.integer({ min: 1, max: 99 }),
  yardsGained: fc.integer({ min: -20, max: 99 }),
  firstDownOrTouchdown: fc.boolean(),
  turnover: fc.boolean(),
});

describe('success of a snap', () => {
  // Carroll, Palmer and Thorn (1988), The Hidden Game of Football: 40, 60 and 100 percent; equality is a success.
  it.each([
    { down: 1, distance: 10, yardsGained: 4, success: true },
    { down: 1, distance: 10, yardsGained: 3, success: false },
    { down: 2, distance: 5, yardsGained: 3, success: true },
    { down: 2, distance: 6, yardsGained: 3, success: false },
    { down: 3, distance: 2, yardsGained: 2, success: true },
    { down: 4, distance: 1, yardsGained: 0, success: false },
  ])('follows the book on down $down, $distance to go, gain $yardsGained', ({ success, ...snap }) => {
    expect(isSuccess(aSnap(snap), DEFAULT_SUCCESS_THRESHOLDS)).toBe(success);
  });

  it('counts exactly 70 % of 90 yards, which floating point would put below', () => {
    const variant = { version: 2, percentOfDistance: [50, 70, 100, 100] };
    expect(0.7 * 90).toBeLessThan(63);
    expect(isSuccess(aSnap({ down: 2, distance: 90, yardsGained: 63 }), variant)).toBe(true);
    expect(isSuccess(aSnap({ down: 2, distance: 90, yardsGained: 62 }), variant)).toBe(false);
  });

  it.each([
    { first: 40, enough: 4 },
    { first: 45, enough: 5 },
    { first: 50, enough: 5 },
  ])('takes $first % on first down as a setting', ({ first, enough }) => {
    const variant = { version: 2, percentOfDistance: [first, 60, 100, 100] };
    expect(isSuccess(aSnap({ yardsGained: enough }), variant)).toBe(true);
    expect(isSuccess(aSnap({ yardsGained: enough - 1 }), variant)).toBe(false);
  });

  it('is never a turnover and otherwise always a first down or touchdown', () => {
    fc.assert(
      fc.property(someSnap, (snap) => {
        expect(isSuccess({ ...snap, turnover: true }, DEFAULT_SUCCESS_THRESHOLDS)).toBe(false);
        const gained = { ...snap, turnover: false, firstDownOrTouchdown: true };
        expect(isSuccess(gained, DEFAULT_SUCCESS_THRESHOLDS)).toBe(true);
      }),
    );
  });

  it('is not lost by one yard more', () => {
    fc.assert(
      fc.property(someSnap, (snap) => {
        const further = { ...snap, yardsGained: snap.yardsGained + 1 };
        const before = isSuccess(snap, DEFAULT_SUCCESS_THRESHOLDS);
        expect(!before || isSuccess(further, DEFAULT_SUCCESS_THRESHOLDS)).toBe(true);
      }),
    );
  });

  it.each([
    [{ version: 1, percentOfDistance: [40, 60, 100] }, 1, 'stats.invalid_shape'],
    [{ version: 1, percentOfDistance: [0.4, 0.6, 1, 1] }, 1, 'stats.invalid_count'],
    [{ version: 1, percentOfDistance: [0, 60, 100, 100] }, 1, 'stats.invalid_count'],
    [DEFAULT_SUCCESS_THRESHOLDS, 5, 'stats.invalid_count'],
  ])('refuses thresholds or downs that mean nothing (%j, %i)', (thresholds, down, code) => {
    expect(() => isSuccess(aSnap({ down }), thresholds)).toThrow(expect.objectContaining({ code }));
  });
});

describe('success of charted plays', () => {
  const first = { down: 1, distance: 10, yardsToGoal: 75 };
  it.each<[string, PlaySketch, number]>([
    ['enough yards', { ...first, snapResult: 'rushed', yardsGained: 4, ledTo: [] }, 1],
    ['too few yards', { ...first, snapResult: 'rushed', yardsGained: 3, ledTo: [] }, 0],
    ['yards alone', { ...first, yardsGained: 4 }, 1],
    ['a touchdown by the spot', { down: 1, distance: 10, yardsToGoal: 2, yardsGained: 2 }, 1],
    ['a touchdown and nothing else', { ledTo: ['touchdown-offense'] }, 1],
    ['a first down and nothing else', { ledTo: ['first-down-gained'] }, 1],
    ['a first down, then a lost fumble', { ...first, yardsGained: 15, ledTo: ['first-down-gained', 'fumble-lost'] }, 0],
    ['a fumble that was kept', { ...first, yardsGained: 5, ledTo: ['fumble-kept'] }, 1],
    ['an interception', { ...first, snapResult: 'intercepted' }, 0],
    ['a safety', { ledTo: ['safety-scored'] }, 0],
    ['a drop, which is an incompletion', { snapResult: 'dropped' }, 0],
    ['a sack of unknown loss', { snapResult: 'sacked' }, 0],
    ['a scramble of unknown gain', { ...first, snapResult: 'scrambled', ledTo: [] }, -1],
    ['an unknown distance', { down: 1, yardsGained: 4 }, -1],
    ['a snap without a result', { ...first, snapResult: 'no-play', yardsGained: 9 }, -1],
    ['a punt', { ...first, down: 4, playType: 'punt', yardsGained: 40 }, -1],
    ['fourth down, going for it', { down: 4, distance: 1, yardsToGoal: 50, snapResult: 'rushed', yardsGained: 1 }, 1],
    [
      'a first down that a foul gave',
      {
        ...first,
        snapResult: 'complete',
        yardsGained: 2,
        foulSide: 'defense',
        foulAnswer: 'accepted',
        ledTo: ['first-down-gained'],
      },
      0,
    ],
  ])('is right for %s', (_what, sketch, expected) => {
    expect([...successCodes(chartOf([sketch]), VOCABULARY, DEFAULT_SUCCESS_THRESHOLDS)]).toEqual([expected]);
  });

  it('agrees with the rule for one snap wherever everything is known', () => {
    fc.assert(
      fc.property(fc.array(someSnap, { minLength: 1, maxLength: 20 }), (snaps) => {
        const chart = chartOf(
          snaps.map(({ down, distance, yardsGained, firstDownOrTouchdown, turnover }) => ({
            down,
            distance,
            yardsGained,
            ledTo: [...(firstDownOrTouchdown ? ['first-down-gained'] : []), ...(turnover ? ['fumble-lost'] : [])],
          })),
        );
        const expected = snaps.map((snap) => (isSuccess(snap, DEFAULT_SUCCESS_THRESHOLDS) ? 1 : 0));
        expect([...successCodes(chart, VOCABULARY, DEFAULT_SUCCESS_THRESHOLDS)]).toEqual(expected);
      }),
    );
  });
});
