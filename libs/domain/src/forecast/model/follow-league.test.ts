import fc from 'fast-check';
import { seededRandom } from '../../statistics/seeded-random.js';
import { followLeague } from './follow-league.js';

/** Plays of two classes in rounds of fifty: log odds as forecast, and outcomes drawn from those by a slope and an offset. */
function league({ rounds = 40, slope = 1, offset = 0 }) {
  const random = seededRandom(5);
  const round = Int32Array.from({ length: 50 * rounds }, (_, play) => Math.floor(play / 50));
  const logOdds = Array.from(round, () => 3 * (random() - 0.5));
  const outcome = Int32Array.from(logOdds, (odds) => (random() < 1 / (1 + Math.exp(-slope * odds - offset)) ? 1 : 0));
  const probabilities = Float64Array.from(
    logOdds.flatMap((odds) => [1 / (1 + Math.exp(odds)), 1 / (1 + Math.exp(-odds))]),
  );
  return { part: { probabilities, rows: Int32Array.from(round.keys()) }, plays: { round, outcome, classes: 2 } };
}

function lossOf(probabilities: Float64Array, outcome: Int32Array): number {
  return outcome.reduce((sum, seen, play) => sum - Math.log(probabilities[play * 2 + seen] ?? 0), 0) / outcome.length;
}

describe('following a league', () => {
  it('shifts a class by excess over information and prior, from the next round on', () => {
    const part = { probabilities: new Float64Array(6).fill(0.5), rows: Int32Array.of(0, 1, 2) };
    const moved = followLeague(part, { round: Int32Array.of(0, 0, 1), outcome: Int32Array.of(1, 1, 0), classes: 2 });
    expect([...moved.subarray(0, 4)]).toEqual([0.5, 0.5, 0.5, 0.5]);
    // Two plays: excess of 1/2 each, information 1/4 each in either score and less it between them; 400 is the prior's.
    const score = (2 * 0.5) / (400 + 2 * 0.5);
    expect(Math.log((moved[5] ?? 0) / (moved[4] ?? 0))).toBeCloseTo(2 * score, 12);
  });

  it('stretches what was too timid and what was too bold draws together', () => {
    for (const { slope, least, most } of [
      { slope: 1.5, least: 1.25, most: 1.6 },
      { slope: 0.6, least: 0.5, most: 0.75 },
    ]) {
      const { part, plays } = league({ rounds: 80, slope });
      const moved = followLeague(part, plays);
      const last = plays.outcome.length - 1;
      const oddsOf = (of: Float64Array): number => Math.log((of[last * 2 + 1] ?? 0) / (of[last * 2] ?? 0));
      expect(oddsOf(moved) / oddsOf(part.probabilities)).toBeGreaterThan(least);
      expect(oddsOf(moved) / oddsOf(part.probabilities)).toBeLessThan(most);
      expect(lossOf(moved, plays.outcome)).toBeLessThan(lossOf(part.probabilities, plays.outcome));
    }
  });

  it('finds a class that is more frequent than forecast, and leaves a right forecast nearly alone', () => {
    const shifted = league({ offset: 0.4 });
    const gain = (of: typeof shifted): number =>
      lossOf(of.part.probabilities, of.plays.outcome) - lossOf(followLeague(of.part, of.plays), of.plays.outcome);
    expect(gain(shifted)).toBeGreaterThan(0.01);
    expect(Math.abs(gain(league({})))).toBeLessThan(0.001);
  });

  it('looks at no play of the same round nor of a later one, and gives probabilities of every class', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5 }),
        fc.array(fc.record({ seen: fc.nat(4), share: fc.double({ min: 0.001, max: 0.999, noNaN: true }) }), {
          minLength: 6,
          maxLength: 6,
        }),
        (classes, drawn) => {
          const round = Int32Array.of(0, 0, 1, 1, 1, 2);
          const outcome = Int32Array.from(drawn, ({ seen }) => seen % classes);
          const probabilities = Float64Array.from(
            drawn.flatMap(({ share }) =>
              Array.from({ length: classes }, (_, k) =>
                classes === 1 ? 1 : k === 0 ? share : (1 - share) / (classes - 1),
              ),
            ),
          );
          const part = { probabilities, rows: Int32Array.from(round.keys()) };
          const moved = followLeague(part, { round, outcome, classes });
          for (let play = 0; play < round.length; play += 1) {
            const of = moved.subarray(play * classes, (play + 1) * classes);
            expect(of.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
          }
          const otherwise = outcome.map((seen, play) => (play >= 2 ? (seen + 1) % classes : seen));
          const changed = followLeague(part, { round, outcome: otherwise, classes });
          expect([...changed.subarray(0, 5 * classes)]).toEqual([...moved.subarray(0, 5 * classes)]);
        },
      ),
    );
  });
});
