import { starterVocabulary } from '../../charting/vocabulary.js';
import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { jensenShannonDivergenceBits } from '../../statistics/jensen-shannon-divergence.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { AskedPlays } from '../decisions/asked-plays.js';
import { choice, columnsOfRows, termId, type Row } from '../sequences/testing/rows-to-columns.js';
import { pick } from '../sequences/testing/simulated-caller.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { changeOfVersion } from './change-of-version.js';
import { drift, DEFAULT_DRIFT, type DimensionDrift } from './drift.js';
import { periodsByHalf, periodsByOrder, periodsOfGames } from './periods.js';

const VOCABULARY = starterVocabulary();
const FAMILIES = ['run', 'dropback-pass', 'quick-pass', 'play-action'].map((name) => termId(`callFamily.${name}`));
const FORMATIONS = ['two-by-two', 'three-by-one', 'bunch', 'pro'].map((name) => termId(`formation.${name}`));
const PLAN = 40;

interface Mover {
  /** Games; each has a plan of its own around the player's shares. */
  readonly games: number;
  /** Share of snaps from this game on that become the first family, whatever else was meant. */
  readonly from: number;
  readonly moved: number;
  /** The same in the second half of every game. */
  readonly secondHalf: number;
}

function rowsOf(random: RandomSource, firstChart: number, { games, from, moved, secondHalf }: Mover): Row[] {
  const families = drawDirichlet(random, [8, 6, 5, 4]);
  const formations = drawDirichlet(random, [8, 6, 4, 3]);
  const planned = (shares: readonly number[]): number[] =>
    drawDirichlet(
      random,
      shares.map((share) => Math.max(0.1, share * PLAN)),
    );
  return Array.from({ length: games }, (_, game) => {
    const [plan, sets] = [planned(families), planned(formations)];
    return Array.from({ length: 40 }, (_snap, order): Row => {
      const quarter = 1 + Math.floor(order / 10);
      const push = game >= from ? moved : quarter > 2 ? secondHalf : 0;
      const family = random() < push ? 0 : pick(random, plan);
      return {
        chart: firstChart + game,
        order: order + 1,
        values: {
          playType: choice('playType', 'scrimmage'),
          quarter,
          callFamily: FAMILIES[family] ?? null,
          formation: FORMATIONS[pick(random, sets)] ?? null,
        },
      };
    });
  }).flat();
}

function factsOf(rows: readonly Row[]): TendencyPlays {
  const plays = columnsOfRows(rows, ['playType', 'quarter', 'callFamily', 'formation']);
  return classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

function asked(facts: TendencyPlays, field: AskedPlays['field'] = null, confidence = 0.9): AskedPlays {
  return { facts, field, player: -1, vocabulary: VOCABULARY, confidence };
}

const GAMES = { games: 12, from: 12, moved: 0, secondHalf: 0 };
const SETTINGS = DEFAULT_DRIFT;
/** Enough where only whether a dimension drifted is asked, not which share moved. */
const FEW = 99;

function driftOf(
  random: RandomSource,
  mover: Mover,
  unit: 'game' | 'half',
  permutations = SETTINGS.permutations,
): DimensionDrift[] {
  const facts = factsOf(rowsOf(random, 0, mover));
  const order = Array.from({ length: mover.games }, (_, game) => game);
  const periods = unit === 'game' ? periodsByOrder(facts, order, 6) : periodsByHalf(facts);
  return drift(
    asked(facts),
    ['callFamily', 'formation', 'motion'],
    periods,
    { ...SETTINGS, permutations, unit },
    random,
  );
}

describe('drift', () => {
  it('is the Jensen-Shannon divergence of the two mixes', () => {
    for (const { divergence, shares } of driftOf(seededRandom(9), GAMES, 'game')) {
      const mix = (period: 'earlier' | 'recent'): number[] => shares.map((share) => share[period].raw?.share ?? 0);
      expect(divergence).toBeCloseTo(jensenShannonDivergenceBits(mix('earlier'), mix('recent')), 12);
    }
  });

  it('counts both periods, cites the plays, and leaves out what nobody charted', () => {
    const [family, formation, ...rest] = driftOf(seededRandom(1), GAMES, 'game');
    expect(rest).toEqual([]);
    expect([family?.earlierGames, family?.recentGames]).toEqual([6, 6]);
    const share = family?.shares[0];
    expect(share?.earlier.known).toBe(240);
    expect(share?.recent.evidence.places()).toHaveLength(share?.recent.count ?? -1);
    expect(formation?.shares.reduce((sum, { recent }) => sum + recent.count, 0)).toBe(240);
  });

  it('is the same under the same seed', () => {
    const [first] = driftOf(seededRandom(2), GAMES, 'game');
    const [second] = driftOf(seededRandom(2), GAMES, 'game');
    expect(first?.pValue).toBe(second?.pValue);
  });

  it('cannot stand on one game against one', () => {
    const [family] = drift(
      asked(factsOf(rowsOf(seededRandom(3), 0, { ...GAMES, games: 2, from: 1, moved: 0.9 }))),
      ['callFamily'],
      Int8Array.from({ length: 80 }, (_, play) => (play < 40 ? 0 : 1)),
      { ...SETTINGS, unit: 'game' },
      seededRandom(4),
    );
    expect(family?.pValue).toBe(1);
    expect(family?.drifted).toBe(false);
  });

  it('says nothing of a player without plays, and refuses no permutations', () => {
    const nobody = asked(factsOf([]));
    expect(drift(nobody, ['callFamily'], new Int8Array(0), { ...SETTINGS, unit: 'game' }, seededRandom(1))).toEqual([]);
    expect(() =>
      drift(nobody, ['callFamily'], new Int8Array(0), { ...SETTINGS, unit: 'game', permutations: 0 }, seededRandom(1)),
    ).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });

  it('is found where planted, over games and within them, and seldom where only plans differ', () => {
    const count = (
      seed: number,
      leagues: number,
      mover: Mover,
      unit: 'game' | 'half',
      permutations = SETTINGS.permutations,
    ): { any: number; right: number } => {
      let [any, right] = [0, 0];
      for (let league = 0; league < leagues; league += 1) {
        const found = driftOf(seededRandom(seed + league), mover, unit, permutations).filter(({ drifted }) => drifted);
        if (found.length > 0) any += 1;
        if (found.some(({ shares }) => shares.some((one) => one.moved && one.value.label === 'run'))) right += 1;
      }
      return { any, right };
    };
    const nullGames = count(100_000, 150, GAMES, 'game', FEW).any;
    const nullHalves = count(110_000, 150, GAMES, 'half', FEW).any;
    const games = count(120_000, 30, { ...GAMES, from: 6, moved: 0.5 }, 'game').right;
    const halves = count(130_000, 30, { ...GAMES, secondHalf: 0.4 }, 'half').right;
    const upper = (found: number): number => wilsonInterval(found, 150, 0.95).upper;
    console.log(
      `drift at 5 %: false in ${nullGames} of 150 leagues over games (upper ${upper(nullGames).toFixed(3)}), ` +
        `${nullHalves} of 150 within games (upper ${upper(nullHalves).toFixed(3)}); ` +
        `planted found and named in ${games} of 30 over games, ${halves} of 30 within`,
    );
    expect(Math.max(upper(nullGames), upper(nullHalves))).toBeLessThanOrEqual(0.12);
    expect(games / 30).toBeGreaterThanOrEqual(0.7);
    expect(halves / 30).toBeGreaterThanOrEqual(0.7);
  });
});

describe('a change of the rules', () => {
  const verdicts = (seed: number, fieldMoves: number, playerMoves: number): string[] =>
    Array.from({ length: 20 }, (_, league) => {
      const random = seededRandom(seed + league);
      const fieldRows: Row[] = [];
      for (let player = 0; player < 5; player += 1) {
        fieldRows.push(...rowsOf(random, 8 * player, { games: 8, from: 4, moved: fieldMoves, secondHalf: 0 }));
      }
      const facts = factsOf(rowsOf(random, 0, { games: 8, from: 4, moved: playerMoves, secondHalf: 0 }));
      const field = {
        facts: factsOf(fieldRows),
        playerOf: Int32Array.from(fieldRows, ({ chart }) => Math.floor(chart / 8)),
      };
      const halvesOf = (of: TendencyPlays): Int8Array =>
        Int8Array.from(of.plays.chartIndex, (chart) => (chart % 8 < 4 ? 0 : 1));
      const changes = changeOfVersion(
        asked(facts, field, 0.95),
        ['callFamily'],
        halvesOf(facts),
        halvesOf(field.facts),
      );
      return changes.find(({ value }) => value.label === 'run')?.verdict ?? 'none';
    });

  it('is told from a change of the player by how the field moved', () => {
    const tally = (found: readonly string[]): Record<string, number> =>
      Object.fromEntries(found.map((verdict) => [verdict, found.filter((other) => other === verdict).length]));
    const version = tally(verdicts(140_000, 0.25, 0.25));
    const player = tally(verdicts(150_000, 0, 0.4));
    const nothing = tally(verdicts(160_000, 0, 0));
    console.log('of 20 leagues:', JSON.stringify({ version, player, nothing }));
    expect((version['the version changed'] ?? 0) / 20).toBeGreaterThanOrEqual(0.75);
    expect(((player['the player changed'] ?? 0) + (player['both changed'] ?? 0)) / 20).toBeGreaterThanOrEqual(0.7);
    expect((nothing['not settled'] ?? 0) / 20).toBeGreaterThanOrEqual(0.75);
  });

  it('cannot be told without a field, and games in neither set are left out', () => {
    const facts = factsOf(rowsOf(seededRandom(5), 0, GAMES));
    const periods = periodsOfGames(facts, [0], [1]);
    expect(changeOfVersion(asked(facts), ['callFamily'], periods, periods)).toEqual([]);
    expect([...new Set(periods)].sort()).toEqual([-1, 0, 1]);
  });
});
