import fc from 'fast-check';
import { forkPlan, MOST_CLIPS, preparationShares } from './next-opponents.js';

describe('shares of the time to prepare', () => {
  it('follow the odds, and are even where nothing is known', () => {
    expect(preparationShares([0.6, 0.2])).toEqual([0.6 / 0.8, 0.2 / 0.8]);
    expect(preparationShares([0, 0])).toEqual([0.5, 0.5]);
  });
});

describe('a plan for the minutes that are left', () => {
  it('reads before it watches, and ends with the changes', () => {
    const plan = forkPlan(
      [
        { share: 0.75, facts: 5, clips: 10 },
        { share: 0.25, facts: 5, clips: 10 },
      ],
      20,
    );
    expect(plan.map(({ candidate, what, clips }) => [candidate, what, clips])).toEqual([
      [0, 'read the facts', 0],
      [0, 'watch the clips', 10],
      [1, 'read the facts', 0],
      [null, 'decide the changes', 0],
    ]);
  });

  it('fills the time without a gap and never watches more than ten clips', () => {
    const candidate = fc.record({
      share: fc.double({ min: 0, max: 1, noNaN: true }),
      facts: fc.nat(5),
      clips: fc.nat(15),
    });
    fc.assert(
      fc.property(
        fc.array(candidate, { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 1, max: 300 }),
        (candidates, minutes) => {
          const shares = preparationShares(candidates.map(({ share }) => share));
          const plan = forkPlan(
            candidates.map((one, at) => ({ ...one, share: shares[at] ?? 0 })),
            minutes,
          );
          let at = 0;
          for (const step of plan) {
            expect(step.fromMinute).toBeCloseTo(at, 9);
            expect(step.minutes).toBeGreaterThanOrEqual(0);
            at += step.minutes;
          }
          expect(at).toBeCloseTo(minutes, 9);
          expect(plan.reduce((sum, { clips }) => sum + clips, 0)).toBeLessThanOrEqual(MOST_CLIPS);
        },
      ),
    );
  });
});
