import { starterVocabulary } from '../charting/vocabulary.js';
import { fieldModel } from './field-model.js';
import { playsOf, SIMULATED, simulateLeague, termId, type League, type LeagueSettings } from './league-simulator.js';
import { DEFAULT_NOTABLE, notableShares } from './notable.js';
import { profile } from './profile.js';
import type { Profile } from './profile-shape.js';
import { ALL_SNAPS } from './situation-keys.js';

// Fifty leagues for each question, every parameter drawn anew from a seed that nothing else uses. The figures are
// printed; the limits stand where they were promised, and a missed one says by how much.

const LEAGUES = 50;
const CONFIDENCE = 0.9;
const DIMENSIONS = SIMULATED.map(({ dimension }) => dimension);

const AS_IN_LIFE: Omit<LeagueSettings, 'seed'> = {
  players: 24,
  games: 4,
  snaps: [30, 45],
  concentration: 40,
  gameConcentration: Number.POSITIVE_INFINITY,
  specialists: 0,
  planted: 0,
  known: 0.85,
};

/** The same number for each league wherever this file runs, and no other test's. */
const seedOf = (league: number): number => 70_000 + league;

interface Judged {
  readonly league: League;
  readonly player: number;
  readonly profile: Profile;
}

function profilesOf(settings: Omit<LeagueSettings, 'seed'>, players: readonly number[]): Judged[] {
  const vocabulary = starterVocabulary();
  return Array.from({ length: LEAGUES }, (_, number) => {
    const league = simulateLeague({ ...settings, seed: seedOf(number) });
    const field = fieldModel({
      facts: league.facts,
      side: 'offense',
      playerOf: league.playerOf,
      players: settings.players,
      vocabulary,
    });
    return players.map((player) => ({
      league,
      player,
      profile: profile({
        plays: playsOf(league, player),
        side: 'offense',
        vocabulary,
        fieldModel: field,
        player,
        confidence: CONFIDENCE,
        dimensions: DIMENSIONS,
      }),
    }));
  }).flat();
}

interface Cell {
  readonly truth: number;
  readonly field: number;
  readonly raw: number;
  readonly shrunk: number;
  readonly inShrunk: boolean;
  readonly inRaw: boolean;
}

function cellsOf({ league, player, profile: { situations } }: Judged): Cell[] {
  return situations
    .filter(({ situation }) => situation !== ALL_SNAPS)
    .flatMap(({ situation, dimensions }) =>
      SIMULATED.flatMap(({ dimension, values }) => {
        const shares = dimensions.find((found) => found.dimension === dimension)?.values ?? [];
        return Array.from({ length: values }, (_, value) => {
          const share = shares.find((found) => found.value.termId === termId(dimension, value));
          if (share?.shrunk == null || share.field === null) return [];
          const truth = league.truth(player, dimension, situation, value);
          const holds = ({ lower, upper }: { lower: number; upper: number }): boolean =>
            lower <= truth && truth <= upper;
          return [
            {
              truth,
              field: share.field.share,
              raw: share.raw.share,
              shrunk: share.shrunk.share,
              inShrunk: holds(share.shrunk.interval),
              inRaw: holds(share.raw.interval),
            },
          ];
        }).flat();
      }),
    );
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const shareOf = <Row>(rows: readonly Row[], holds: (row: Row) => boolean): number =>
  mean(rows.map((row) => (holds(row) ? 1 : 0)));
const monteCarloError = (share: number, trials: number): number => Math.sqrt((share * (1 - share)) / trials);
const squared = (cells: readonly Cell[], of: (cell: Cell) => number): number =>
  mean(cells.map((cell) => (of(cell) - cell.truth) ** 2));
const toldOf = (share: number, trials: number): string =>
  `${share.toFixed(3)} ± ${monteCarloError(share, trials).toFixed(3)}`;

const figures: string[] = [];
afterAll(() => {
  console.log(figures.join('\n'));
});

describe('in a league that is as the model says', () => {
  const judged = profilesOf(AS_IN_LIFE, [0, 8, 16]);
  const cells = judged.flatMap(cellsOf);
  const coverage = shareOf(cells, ({ inShrunk }) => inShrunk);

  it('the 90 % posterior intervals cover 88 to 92 % of the cells', () => {
    figures.push(
      `well specified: ${cells.length} cells, posterior covers ${coverage.toFixed(3)}, raw ${shareOf(cells, ({ inRaw }) => inRaw).toFixed(3)}`,
      `  by distance of truth from the field: ${coverageByDistance(cells)}`,
    );
    expect(coverage).toBeGreaterThanOrEqual(0.88);
    expect(coverage).toBeLessThanOrEqual(0.92);
  });

  it('shrunk shares are nearer to the truth than raw ones and than the field', () => {
    const [shrunk, raw, field] = [
      squared(cells, (cell) => cell.shrunk),
      squared(cells, (cell) => cell.raw),
      squared(cells, (cell) => cell.field),
    ];
    figures.push(
      `  mean squared error x 10^4: shrunk ${tenThousandths(shrunk)}, raw ${tenThousandths(raw)}, field ${tenThousandths(field)}`,
    );
    expect(shrunk).toBeLessThan(raw);
    expect(shrunk).toBeLessThan(field);
  });
});

describe('in a league with 15 % specialists', () => {
  it('the 90 % posterior intervals still cover 86 to 94 % of the cells', () => {
    const cells = profilesOf({ ...AS_IN_LIFE, specialists: 0.15 }, [0, 8, 16]).flatMap(cellsOf);
    const coverage = shareOf(cells, ({ inShrunk }) => inShrunk);
    figures.push(
      `15 % specialists: posterior covers ${coverage.toFixed(3)}`,
      `  by distance of truth from the field: ${coverageByDistance(cells)}`,
    );
    expect(coverage).toBeGreaterThanOrEqual(0.86);
    expect(coverage).toBeLessThanOrEqual(0.94);
  });
});

describe('a habit of +25 points in one of the commonest situations', () => {
  it.each([
    { games: 4, established: 0.2, among: 0.6 },
    { games: 8, established: 0.55, among: 0.8 },
  ])('after $games games is established at least at $established and in the top ten at $among', (expected) => {
    const judged = profilesOf({ ...AS_IN_LIFE, games: expected.games, concentration: 60, planted: 0.25 }, [3, 13]);
    const places = judged.map(({ league, player, profile: found }) => {
      const planted = league.planted.find((habit) => habit.player === player);
      const list = notableShares(found, DEFAULT_NOTABLE);
      const place = list.findIndex(
        ({ situation, share, direction }) =>
          situation.situation === planted?.situation && share.value.key === planted.termKey && direction === 'more',
      );
      return { place, established: list[place]?.established ?? false };
    });
    const established = shareOf(places, (found) => found.established);
    const among = shareOf(places, ({ place }) => place >= 0 && place < 10);
    figures.push(
      `planted +25, ${expected.games} games: established ${toldOf(established, places.length)}, top ten ${toldOf(among, places.length)} of ${places.length}`,
    );
    expect(established + 2 * monteCarloError(established, places.length)).toBeGreaterThan(expected.established);
    expect(among + 2 * monteCarloError(among, places.length)).toBeGreaterThan(expected.among);
  });
});

describe('in a league where all players are alike', () => {
  it.each([
    { kind: 'without game plans', gameConcentration: Number.POSITIVE_INFINITY },
    { kind: 'with game plans', gameConcentration: 30 },
  ])('$kind, at most one profile in twenty has a share called established', ({ kind, gameConcentration }) => {
    const settings = { ...AS_IN_LIFE, concentration: Number.POSITIVE_INFINITY, gameConcentration };
    const counts = profilesOf(settings, [2, 12]).map(
      ({ profile: found }) => notableShares(found, DEFAULT_NOTABLE).filter(({ established }) => established).length,
    );
    const withAny = shareOf(counts, (count) => count > 0);
    figures.push(`null ${kind}: a false find in ${toldOf(withAny, counts.length)} of ${counts.length} profiles`);
    expect(withAny).toBeLessThanOrEqual(0.05);
  });
});

function coverageByDistance(cells: readonly Cell[]): string {
  const bands = [0, 0.05, 0.1, 0.15, 0.2];
  return bands
    .map((from, band) => {
      const to = bands[band + 1] ?? 1;
      const inside = cells.filter(
        ({ truth, field }) => Math.abs(truth - field) >= from && Math.abs(truth - field) < to,
      );
      const covered = shareOf(inside, ({ inShrunk }) => inShrunk);
      const either = shareOf(inside, ({ inShrunk, inRaw }) => inShrunk || inRaw);
      return `${from}: ${covered.toFixed(2)} (${either.toFixed(2)} with the raw one, n ${inside.length})`;
    })
    .join('; ');
}

function tenThousandths(value: number): string {
  return (value * 1e4).toFixed(1);
}
