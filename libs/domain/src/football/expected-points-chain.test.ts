import fc from 'fast-check';
import { gatherPlays, UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import { PLAY_FIELDS } from '../charting/play-fields.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { DEFAULT_CLOCK_SETTINGS } from './clock-situations.js';
import { expectedPointsOfPlays, outOfReachMask, UNKNOWN_POINTS } from './expected-points-added.js';
import { DEFAULT_EXPECTED_POINTS, fitExpectedPoints } from './expected-points-chain.js';
import { solveChain } from './expected-points-solve.js';
import { scoringSteps, STEP_ENDS, STEP_KEEPS, STEP_LOSES } from './expected-points-steps.js';
import { firstAndTenPoints, PUBLISHED_FIRST_AND_TEN } from './expected-points.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';
import { simulatedGame } from './testing/simulated-game.js';

const VOCABULARY = starterVocabulary();
const NOTHING = fitExpectedPoints(chartOf([]), VOCABULARY, DEFAULT_EXPECTED_POINTS);

function archive(seed: number, games: number): PlayColumns {
  const charts = Array.from({ length: games }, (_, game) =>
    chartOf(simulatedGame(seededRandom(seed + game)), { chartId: `c${game}`, gameId: `g${game}` }),
  );
  return gatherPlays(
    charts.map((plays) => ({ plays, offense: 'both' })),
    PLAY_FIELDS.map(({ name }) => name),
    (id) => id,
  );
}

describe('expected points without an archive', () => {
  // Carter and Machol (1971), Table I; nothing is computed on the way, so that only rounding may differ.
  it.each(PUBLISHED_FIRST_AND_TEN)('are the published $points at first and ten, $yardsToGoal out', (entry) => {
    expect(NOTHING.points(1, Math.min(10, entry.yardsToGoal), entry.yardsToGoal)).toBeCloseTo(entry.points, 12);
  });

  it('are the published table between its entries and beyond them', () => {
    for (let yardsToGoal = 1; yardsToGoal <= 99; yardsToGoal += 1) {
      const points = NOTHING.points(1, Math.min(10, yardsToGoal), yardsToGoal);
      expect(Math.abs(points - firstAndTenPoints(yardsToGoal))).toBeLessThan(1e-12);
    }
  });

  it('fall with the down, and never rise with the distance on a later down', () => {
    for (let yardsToGoal = 15; yardsToGoal <= 95; yardsToGoal += 5) {
      const ofDown = [1, 2, 3, 4].map((down) => NOTHING.points(down, 10, yardsToGoal));
      expect(ofDown).toEqual([...ofDown].sort((a, b) => b - a));
      const ofDistance = [1, 4, 8, 12].map((distance) => NOTHING.points(3, distance, yardsToGoal));
      expect(ofDistance).toEqual([...ofDistance].sort((a, b) => b - a));
    }
  });
});

describe('the chain', () => {
  it('gives nothing where both sides are alike and the prior is nothing', () => {
    // Two states; each play scores for either side as often, or hands the ball over.
    const steps = {
      states: 2,
      plays: Float64Array.of(20, 8),
      points: Float64Array.of(0, 0),
      moves: Float64Array.of(4, -4, -2, 1),
    };
    for (const value of solveChain(steps, new Float64Array(2), 1)) expect(value).toBeCloseTo(0, 14);
  });

  it('solves a chain that can be solved by hand', () => {
    // From state 0 half score 7, half lose the ball to state 0: v = 3.5 - v / 2, and v = 7 / 3 as the prior vanishes.
    const steps = {
      states: 1,
      plays: Float64Array.of(2),
      points: Float64Array.of(7),
      moves: Float64Array.of(-1),
    };
    expect(solveChain(steps, Float64Array.of(100), 1e-12)[0]).toBeCloseTo(7 / 3, 9);
  });

  it('turns its sign when every score and the prior do', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -7, max: 7 }), { minLength: 3, maxLength: 3 }),
        fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 9, maxLength: 9 }),
        (points, moves) => {
          const steps = {
            states: 3,
            plays: Float64Array.of(10, 10, 10),
            points: Float64Array.from(points),
            moves: Float64Array.from(moves),
          };
          const prior = Float64Array.of(1, -2, 3);
          const values = solveChain(steps, prior, 2);
          const turned = solveChain(
            { ...steps, points: steps.points.map((value) => -value) },
            prior.map((value) => -value),
            2,
          );
          for (const [state, value] of values.entries()) expect(turned[state]).toBeCloseTo(-value, 10);
        },
      ),
    );
  });

  it('refuses a prior that weighs nothing', () => {
    expect(() => fitExpectedPoints(chartOf([]), VOCABULARY, { version: 1, priorWeight: 0 })).toThrow(
      expect.objectContaining({ code: 'stats.invalid_number' }),
    );
  });
});

describe('expected points fitted on an archive', () => {
  const plays = archive(7_000, 500);
  const fitted = fitExpectedPoints(plays, VOCABULARY, { version: 1, priorWeight: 1 });

  it('agree with the mean of the next scores that were seen', () => {
    const { kind, points, next } = scoringSteps(plays, VOCABULARY);
    const values = { down: plays.number('down').values, goal: plays.number('yardsToGoal').values };
    const distances = plays.number('distance').values;
    const scores: number[] = [];
    for (let play = 0; play < plays.count; play += 1) {
      if (values.down[play] !== 1 || distances[play] !== 10) continue;
      if (Math.abs((values.goal[play] ?? 0) - 65) > 2) continue;
      let at = play;
      let sign = 1;
      while ((next[at] ?? -1) >= 0) {
        if (kind[at] === STEP_LOSES) sign = -sign;
        at = next[at] ?? -1;
      }
      if (kind[at] === STEP_ENDS) scores.push(sign * (points[at] ?? 0));
    }
    const mean = scores.reduce((sum, score) => sum + score, 0) / scores.length;
    const variance = scores.reduce((sum, score) => sum + (score - mean) ** 2, 0) / (scores.length - 1);
    const error = Math.sqrt(variance / scores.length);
    console.log(
      `first and ten, 65 out: chain ${fitted.points(1, 10, 65).toFixed(2)}, next scores ${mean.toFixed(2)} ` +
        `(standard error ${error.toFixed(2)}, n ${scores.length}), published ${firstAndTenPoints(65).toFixed(2)}`,
    );
    expect(Math.abs(fitted.points(1, 10, 65) - mean)).toBeLessThan(3 * error);
  });

  it('move from the published table to the archive as the archive grows', () => {
    const far = Math.abs(fitted.points(1, 10, 65) - firstAndTenPoints(65));
    const some = fitExpectedPoints(archive(7_000, 4), VOCABULARY, DEFAULT_EXPECTED_POINTS);
    expect(far).toBeGreaterThan(0.3);
    expect(Math.abs(some.points(1, 10, 65) - firstAndTenPoints(65))).toBeLessThan(far / 2);
    expect(some.support(1, 10, 65)).toBeLessThan(fitted.support(1, 10, 65));
  });

  it('are conserved: what plays of a drive add is where it ended less where it began', () => {
    const { before, after, added } = expectedPointsOfPlays(plays, VOCABULARY, fitted);
    const { kind, next } = scoringSteps(plays, VOCABULARY);
    const joined = new Set(next);
    let drives = 0;
    for (let first = 0; first < plays.count; first += 1) {
      if (kind[first] !== STEP_KEEPS || (joined.has(first) && kind[first - 1] === STEP_KEEPS)) continue;
      let sum = 0;
      let last = first;
      for (
        let at = first;
        at >= 0 && added[at] !== UNKNOWN_POINTS;
        at = kind[at] === STEP_KEEPS ? (next[at] ?? -1) : -1
      ) {
        sum += added[at] ?? 0;
        last = at;
      }
      expect(sum).toBeCloseTo((after[last] ?? 0) - (before[first] ?? 0), 9);
      drives += 1;
    }
    expect(drives).toBeGreaterThan(1_000);
  });

  it('are known on nearly every play, and never NaN', () => {
    const { before, added } = expectedPointsOfPlays(plays, VOCABULARY, fitted);
    const states = before.filter((value) => value !== UNKNOWN_POINTS).length;
    const steps = added.filter((value) => value !== UNKNOWN_POINTS).length;
    expect(steps / states).toBeGreaterThan(0.97);
    expect([...before, ...added].every((value) => Number.isFinite(value))).toBe(true);
  });

  it('are fitted on 200,000 plays in well under a second', () => {
    const copies = Math.ceil(200_000 / plays.count);
    const many = gatherPlays(
      Array.from({ length: copies }, () => ({ plays, offense: 'both' as const })),
      ['playType', 'quarter', 'drive', 'down', 'distance', 'yardsToGoal', 'snapResult', 'ledTo'],
      (id) => id,
    );
    // The best of three: the machine may be busy with something else.
    const times = [0, 1, 2].map(() => {
      const start = performance.now();
      fitExpectedPoints(many, VOCABULARY, DEFAULT_EXPECTED_POINTS);
      return performance.now() - start;
    });
    const milliseconds = Math.min(...times);
    console.log(`fit on ${many.count} plays: ${milliseconds.toFixed(0)} ms`);
    expect(milliseconds).toBeLessThan(900);
  });
});

describe('what followed a play', () => {
  const kindAndPoints = (sketches: readonly PlaySketch[]): (readonly [number, number])[] => {
    const { kind, points } = scoringSteps(chartOf(sketches), VOCABULARY);
    return [...kind].map((value, play) => [value, points[play] ?? 0] as const);
  };
  const snap: PlaySketch = { quarter: 1, down: 1, distance: 10, yardsToGoal: 40, drive: 1 };

  it('is a touchdown where a try follows, whoever scored', () => {
    const tryKick: PlaySketch = { quarter: 1, playType: 'try kick' };
    expect(kindAndPoints([snap, tryKick])[0]).toEqual([STEP_ENDS, 7]);
    expect(kindAndPoints([snap, { ...tryKick, offenseIsHome: false }])[0]).toEqual([STEP_ENDS, -7]);
  });

  it('is a safety where a free kick follows', () => {
    expect(kindAndPoints([snap, { quarter: 1, playType: 'free kick' }])[0]).toEqual([STEP_ENDS, -2]);
  });

  it('ends at nothing with the half, and is unknown where a chart stops short of it or plays are missing', () => {
    expect(
      kindAndPoints([
        { ...snap, quarter: 2 },
        { ...snap, quarter: 3 },
      ])[0],
    ).toEqual([STEP_ENDS, 0]);
    expect(kindAndPoints([snap])[0]).toEqual([0, 0]);
    expect(kindAndPoints([snap, { ...snap, order: 5 }])[0]).toEqual([0, 0]);
  });

  it('is not joined where neither quarter nor drive says that the half is the same', () => {
    const bare: PlaySketch = { down: 1, distance: 10, yardsToGoal: 40 };
    expect(kindAndPoints([bare, bare])[0]).toEqual([0, 0]);
    expect(
      kindAndPoints([
        { ...bare, drive: 2 },
        { ...bare, drive: 2 },
      ])[0],
    ).toEqual([1, 0]);
  });

  it('ends at nothing before a kneel', () => {
    expect(kindAndPoints([snap, { ...snap, playType: 'kneel' }])).toEqual([
      [STEP_ENDS, 0],
      [0, 0],
    ]);
  });

  it('is left out of the fit where asked, and out of reach is told by clock and score', () => {
    const lost: PlaySketch = { ...snap, quarter: 4, clockSeconds: 30, scoreDifference: -30 };
    const plays = chartOf([lost, { ...lost, ledTo: ['touchdown-offense'] }]);
    const mask = outOfReachMask(plays, DEFAULT_CLOCK_SETTINGS, 240);
    expect([...mask]).toEqual([1, 1]);
    expect(fitExpectedPoints(plays, VOCABULARY, DEFAULT_EXPECTED_POINTS, mask).plays).toBe(0);
    expect(fitExpectedPoints(plays, VOCABULARY, DEFAULT_EXPECTED_POINTS).plays).toBe(2);
  });

  it('leaves expected points unknown where down, distance or spot is', () => {
    const plays = chartOf([
      { ...snap, yardsToGoal: UNKNOWN_NUMBER },
      { quarter: 1, down: 2 },
    ]);
    const { before, added } = expectedPointsOfPlays(plays, VOCABULARY, NOTHING);
    expect([...before, ...added]).toEqual([UNKNOWN_POINTS, UNKNOWN_POINTS, UNKNOWN_POINTS, UNKNOWN_POINTS]);
  });
});
