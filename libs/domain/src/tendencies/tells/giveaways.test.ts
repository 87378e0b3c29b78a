import { starterVocabulary } from '../../charting/vocabulary.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { chartedFacts, type ChartedRow } from '../charted-rows.js';
import { giveaways } from './giveaways.js';
import { giveawaysFound } from './testing/giveaway-league.js';

const VOCABULARY = starterVocabulary();
const MESH = VOCABULARY.idOfCode('concept.mesh');

interface League {
  /** How often a player calls mesh, and how often after motion. */
  readonly usual: (game: number) => number;
  readonly afterMotion: (game: number) => number;
  /** How often a player sends somebody in motion. */
  readonly motion: (game: number) => number;
  readonly seed: number;
}

function searched({ usual, afterMotion, motion, seed }: League, partsOfCall: readonly string[] = []) {
  const random = seededRandom(seed);
  const games = Array.from({ length: 30 }, (_, game) =>
    Array.from({ length: 40 }, (): ChartedRow => {
      const moved = random() < motion(game);
      const called = random() < (moved ? afterMotion(game) : usual(game));
      return {
        ...{ down: 1, distance: 10, yardsToGoal: 60, snapResult: 'snapResult.rushed', yardsGained: 3 },
        motion: moved ? 'motion.jet' : 'motion.none',
        concept: called ? 'concept.mesh' : 'concept.power',
      };
    }),
  );
  const facts = chartedFacts(...games);
  const { codes, meanings } = facts.plays.code('concept');
  return giveaways({
    ...{ facts, side: 'offense', vocabulary: VOCABULARY, label: 'mesh', partsOfCall, confidence: 0.9, level: 0.1 },
    playerOf: Int32Array.from(facts.plays.chartIndex, (chart) => chart % 2),
    codes: Int16Array.from(codes, (code) => (meanings[code] === MESH ? 0 : 1)),
  });
}

const flat = (share: number) => (): number => share;

describe("what gives a call away in everybody's hands", () => {
  it('is found where the look goes with the call, with counts', () => {
    const { found, tested } = searched({ usual: flat(0.1), afterMotion: flat(0.4), motion: flat(0.3), seed: 5 });
    expect(tested).toBeGreaterThan(0);
    expect(found[0]?.cueValue.label).toBe('jet');
    const { count = 0, plays = 1, countWithout = 0, playsWithout = 1 } = found[0] ?? {};
    expect(count / plays).toBeCloseTo(0.4, 0);
    expect(plays + playsWithout).toBe(30 * 40);
    expect(found[0]?.evidence.places()).toHaveLength(count);
    expect(countWithout / playsWithout).toBeLessThan(0.2);
  });

  it('is not a player who likes both the look and the call', () => {
    // Half of the players move and call mesh often, the others seldom; within a player neither tells the other.
    const often = (game: number): number => (game % 2 === 0 ? 0.6 : 0.1);
    const finds = [1, 2, 3, 4, 5, 6].filter(
      (seed) => searched({ usual: often, afterMotion: often, motion: often, seed }).found.length > 0,
    );
    // At a tenth of false discoveries one of six is usual; pooled over players each of these would find it.
    expect(finds.length).toBeLessThanOrEqual(2);
  });

  it('is not that either where most plays are alone in their game', () => {
    // Larger runs: npm run bench -- calibration answers, in docs/reference/calibration.md.
    const league = { games: 120, snaps: 10, players: 4, taste: 1, plan: 10_000, planted: 0 };
    const wrong = Array.from({ length: 10 }, (_, at) => giveawaysFound({ ...league, seed: 30_000 + at }).wrong);
    // Compared over everybody's games, eight.
    expect(wrong.filter(Boolean).length).toBeLessThanOrEqual(2);
  });

  it('is no part of the call itself', () => {
    const planted = { usual: flat(0.1), afterMotion: flat(0.4), motion: flat(0.3), seed: 5 };
    expect(searched(planted, ['motion']).found).toEqual([]);
  });

  it.each([{ level: 0 }, { confidence: 1 }])('refuses %j', (wrong) => {
    const facts = chartedFacts([]);
    const nothing = { codes: new Int16Array(0), playerOf: new Int32Array(0), label: '' };
    const input = { facts, side: 'offense' as const, vocabulary: VOCABULARY, ...nothing };
    expect(() => giveaways({ ...input, partsOfCall: [], confidence: 0.9, level: 0.1, ...wrong })).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
  });
});
