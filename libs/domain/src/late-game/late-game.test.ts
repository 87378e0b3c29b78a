import fc from 'fast-check';
import { clockAdvice, type ClockSituation } from './clock-advice.js';
import { lateGameWords } from './late-words.js';
import { fromMidfield, onsideAdvice, twoPointAdvice } from './tries-and-kickoffs.js';
import { WinChance, type Scorer } from './win-chance.js';

const USUAL: Scorer = { drive: { touchdown: 0.25, fieldGoal: 0.15 }, tries: { twoPoint: 0.45, kick: 0.95 } };
const even = new WinChance(USUAL, USUAL);

const aScorer = fc.record({
  drive: fc.record({
    touchdown: fc.double({ min: 0, max: 0.5, noNaN: true }),
    fieldGoal: fc.double({ min: 0, max: 0.4, noNaN: true }),
  }),
  tries: fc.record({
    twoPoint: fc.double({ min: 0.2, max: 0.7, noNaN: true }),
    kick: fc.double({ min: 0.7, max: 1, noNaN: true }),
  }),
});

describe('the chance to win', () => {
  it('with no drive left is the score, and a tie is even', () => {
    expect([even.of(0, 1, 'us'), even.of(0, -1, 'us'), even.of(0, 0, 'them')]).toEqual([1, 0, 0.5]);
  });

  it('with one drive of ours left, four behind, is that of a touchdown, by hand', () => {
    // Any try leaves us ahead; a field goal does not.
    expect(even.of(1, -4, 'us')).toBeCloseTo(0.25, 12);
    // Three behind: a field goal ties, a touchdown wins.
    expect(even.of(1, -3, 'us')).toBeCloseTo(0.25 + 0.15 * 0.5, 12);
    // Seven behind: the kick ties 0.95 x 0.5 = 0.475 of the touchdowns, two points win 0.45 of them: the kick is better.
    expect(even.of(1, -7, 'us')).toBeCloseTo(0.25 * 0.475, 12);
    // Eight behind: only two points tie.
    expect(even.of(1, -8, 'us')).toBeCloseTo(0.25 * 0.45 * 0.5, 12);
  });

  it('lies between those of the whole numbers of drives on either side', () => {
    expect(even.of(1.25, -4, 'us')).toBeCloseTo(0.75 * even.of(1, -4, 'us') + 0.25 * even.of(2, -4, 'us'), 12);
  });

  it('grows with the lead, and is that of the other side turned round', () => {
    fc.assert(
      fc.property(
        aScorer,
        aScorer,
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: -25, max: 25 }),
        (us, them, n, lead) => {
          const [ours, theirs] = [new WinChance(us, them), new WinChance(them, us)];
          expect(ours.of(n, lead + 1, 'us')).toBeGreaterThanOrEqual(ours.of(n, lead, 'us') - 1e-12);
          expect(ours.of(n, lead, 'us')).toBeCloseTo(1 - theirs.of(n, -lead, 'them'), 9);
        },
      ),
    );
  });

  it.each([
    { drive: { touchdown: 0.7, fieldGoal: 0.4 }, tries: USUAL.tries },
    { drive: USUAL.drive, tries: { twoPoint: 1.2, kick: 0.9 } },
  ])('refuses what is no chance: %j', (wrong) => {
    expect(() => new WinChance(USUAL, wrong)).toThrow(expect.objectContaining({ code: 'stats.invalid_probability' }));
  });
});

describe('a try after a touchdown', () => {
  it('with the game over after it goes for what the score asks, by hand', () => {
    // Two behind: only two points tie. One behind: the kick ties 0.95 x 0.5, two points win 0.45.
    expect(twoPointAdvice(even, -2, 0)).toEqual({ chances: { kick: 0, two: 0.225 }, best: 'two' });
    expect(twoPointAdvice(even, -1, 0)).toMatchObject({ chances: { kick: 0.475, two: 0.45 }, best: 'kick' });
    // Ahead already: nothing that follows matters.
    expect(twoPointAdvice(even, 2, 0).best).toBeNull();
  });

  // Sackrowitz (2000), from memory: five ahead late, two points make it a touchdown's worth.
  it('five ahead with one drive of theirs left goes for two', () => {
    expect(twoPointAdvice(even, 5, 1).best).toBe('two');
    expect(twoPointAdvice(even, 0, 8).best).not.toBe('two');
  });

  it('wins no less with two the better we are at it, while no later try of ours is to come', () => {
    fc.assert(
      fc.property(aScorer, fc.integer({ min: 0, max: 1 }), fc.integer({ min: -20, max: 20 }), (them, drives, lead) => {
        const wins = (twoPoint: number): number =>
          new WinChance({ ...USUAL, tries: { ...USUAL.tries, twoPoint } }, them).afterTry(drives, lead, 'us', 2);
        expect(wins(0.6)).toBeGreaterThanOrEqual(wins(0.4) - 1e-12);
      }),
    );
  });
});

describe('a kickoff', () => {
  const gambled = (recovered: number) => ({
    recovered,
    ours: fromMidfield(USUAL.drive),
    theirs: fromMidfield(USUAL.drive),
  });

  it('is onside where theirs would be the last drive and we are behind, and deep where we are ahead', () => {
    // Four behind, one drive left: deep never wins; onside wins with a recovery and a touchdown from midfield.
    const advice = onsideAdvice(even, -4, 1, gambled(0.2));
    expect(advice.best).toBe('onside');
    expect(advice.chances.deep).toBe(0);
    expect(advice.chances.onside).toBeCloseTo(0.2 * 1.4 * 0.25, 12);
    expect(onsideAdvice(even, 4, 1, gambled(0.2)).best).toBe('deep');
  });

  it('is never more advisable onside with a larger lead, once it is not advisable', () => {
    fc.assert(
      fc.property(
        aScorer,
        aScorer,
        fc.integer({ min: 1, max: 8 }),
        fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        (us, them, drives, recovered) => {
          const chance = new WinChance(us, them);
          const kick = { recovered, ours: fromMidfield(us.drive), theirs: fromMidfield(them.drive) };
          const leads = Array.from({ length: 61 }, (_, at) => at - 30);
          const bests = leads.map((lead) => onsideAdvice(chance, lead, drives, kick).best);
          const firstDeep = bests.indexOf('deep');
          if (firstDeep >= 0) expect(bests.slice(firstDeep)).not.toContain('onside');
        },
      ),
    );
  });

  it('from midfield is no more than a sure score', () => {
    const { touchdown, fieldGoal } = fromMidfield({ touchdown: 0.6, fieldGoal: 0.4 });
    expect(touchdown + fieldGoal).toBeCloseTo(1, 12);
  });
});

const AHEAD: ClockSituation = {
  ...{ lead: 3, secondsLeft: 110, endsGame: true, ball: 'us', down: 1, yardsToGoal: 60 },
  ...{ ourTimeouts: 0, theirTimeouts: 0, runOffSeconds: 38 },
};

describe('the clock', () => {
  it('is knelt out with three kneels of forty seconds, by hand, and not with one second more', () => {
    // 3 x (2 + 38) = 120.
    expect(clockAdvice({ ...AHEAD, secondsLeft: 120 })).toEqual({ do: 'kneel', kneelSeconds: 120, setsToRunOut: 0 });
    expect(clockAdvice({ ...AHEAD, secondsLeft: 121 })).toMatchObject({ do: 'burn', setsToRunOut: 1 });
    // Each timeout of theirs keeps one run-off: 3 x 2 + 2 x 38 = 82.
    expect(clockAdvice({ ...AHEAD, theirTimeouts: 1 })).toMatchObject({ do: 'burn', kneelSeconds: 82 });
    expect(clockAdvice({ ...AHEAD, secondsLeft: 82, theirTimeouts: 1 }).do).toBe('kneel');
    // Third down leaves one kneel.
    expect(clockAdvice({ ...AHEAD, down: 3 }).kneelSeconds).toBe(40);
  });

  it('is stopped by our timeouts where they could run it out, and not long before that', () => {
    const behind: ClockSituation = { ...AHEAD, lead: -4, ball: 'them', ourTimeouts: 2 };
    expect(clockAdvice(behind).do).toBe('use timeouts');
    expect(clockAdvice({ ...behind, secondsLeft: 340 }).do).toBe('keep timeouts');
    expect(clockAdvice({ ...behind, ourTimeouts: 0 }).do).toBe('play on');
  });

  it('is knelt out before the half only where nothing can be scored any more', () => {
    const half: ClockSituation = { ...AHEAD, endsGame: false, secondsLeft: 5, yardsToGoal: 80 };
    expect(clockAdvice(half).do).toBe('kneel');
    expect(clockAdvice({ ...half, yardsToGoal: 30 }).do).toBe('hurry');
    expect(clockAdvice({ ...half, secondsLeft: 900 }).do).toBe('play on');
  });

  it('that can be knelt out can be with less of it, or with fewer timeouts of theirs', () => {
    const situations = fc.record({
      ...{ secondsLeft: fc.integer({ min: 1, max: 200 }), down: fc.integer({ min: 1, max: 4 }) },
      ...{ theirTimeouts: fc.integer({ min: 1, max: 3 }), runOffSeconds: fc.integer({ min: 5, max: 45 }) },
    });
    fc.assert(
      fc.property(situations, (of) => {
        const situation = { ...AHEAD, ...of };
        if (clockAdvice(situation).do !== 'kneel') return;
        expect(clockAdvice({ ...situation, secondsLeft: of.secondsLeft - 1 }).do).toBe('kneel');
        expect(clockAdvice({ ...situation, theirTimeouts: of.theirTimeouts - 1 }).do).toBe('kneel');
      }),
    );
  });

  it.each([{ down: 5 }, { secondsLeft: -1 }, { ourTimeouts: 4 }, { runOffSeconds: 61 }])('refuses %j', (wrong) => {
    expect(() => clockAdvice({ ...AHEAD, ...wrong })).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});

describe('the sentence', () => {
  const equal = { ...{ best: null, stands: false }, chances: { kick: 0.5, two: 0.5, deep: 0.5, onside: 0.5 } };
  const told = (clock: ClockSituation): string =>
    lateGameWords({ drivesLeft: 2, twoPoint: equal, onside: equal, clock: clockAdvice(clock), guesses: [] }).split(
      '; after',
    )[0] ?? '';

  it('says what kneeling takes where the advice turns on it, and not to who must hurry', () => {
    expect(told({ ...AHEAD, secondsLeft: 121 })).toBe(
      'clock: burn (kneeling takes 120 seconds; 1 more set of downs runs it out)',
    );
    expect(told({ ...AHEAD, secondsLeft: 300 })).toMatch(/2 more sets of downs run it out/);
    expect(told({ ...AHEAD, secondsLeft: 100 })).toBe('clock: kneel (kneeling takes 120 seconds; that runs it out)');
    expect(told({ ...AHEAD, secondsLeft: 100, lead: -2 })).toBe('clock: hurry');
  });
});
