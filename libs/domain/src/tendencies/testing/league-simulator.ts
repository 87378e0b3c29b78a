import { PlayColumns, type ChartKey, type Column } from '../../charting/play-columns.js';
import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import { starterVocabulary } from '../../charting/vocabulary.js';
import type { TendencyPlays } from '../tendency-plays.js';

// Test support: a league with known truth, for the finder to be judged by. Its seeds are its own.

export interface LeagueSettings {
  readonly seed: number;
  readonly players: number;
  /** Games of each player. */
  readonly games: number;
  /** Snaps of one player in one game, drawn evenly between the two. */
  readonly snaps: readonly [fewest: number, most: number];
  /** Prior weight in plays by which players differ from the field; infinite for players that are all alike. */
  readonly concentration: number;
  /** The same for the games of one player; infinite for games without a plan. */
  readonly gameConcentration: number;
  /** The same for a player's last game from the first, the games between going there in equal steps; infinite for none. */
  readonly driftConcentration: number;
  /** Share of players drawn from a concentration of 3 instead. */
  readonly specialists: number;
  /** For each player one value in one situation of one dimension is used this much more often; 0 plants nothing. */
  readonly planted: number;
  /** Share of plays on which a field is known. */
  readonly known: number;
}

/** What was planted in a player. */
export interface PlantedHabit {
  readonly player: number;
  readonly dimension: (typeof SIMULATED)[number]['dimension'];
  readonly situation: string;
  readonly termKey: string;
}

export interface League {
  readonly facts: TendencyPlays;
  readonly playerOf: Int32Array;
  readonly planted: readonly PlantedHabit[];
  /** True share of a value for a player in a situation; the season's mean where habits drift. */
  truth(player: number, dimension: string, situation: string, value: number): number;
  /** True share of a value around which the players were drawn. */
  fieldTruth(dimension: string, situation: string, value: number): number;
}

export const SIMULATED = [
  { dimension: 'callFamily', values: 6 },
  { dimension: 'concept', values: 20 },
  { dimension: 'formation', values: 10 },
  { dimension: 'motion', values: 5 },
] as const;

// Shares of the situations in a game, roughly as down and distance fall; common practice, no source.
const SITUATIONS = [
  { name: 'first snap', share: 0.14 },
  { name: 'first and ten', share: 0.3 },
  { name: 'second and short', share: 0.08 },
  { name: 'second and medium', share: 0.1 },
  { name: 'second and long', share: 0.16 },
  { name: 'third and short', share: 0.06 },
  { name: 'third and medium', share: 0.07 },
  { name: 'third and long', share: 0.09 },
];

const SITUATION_SHARES = SITUATIONS.map(({ share }) => share);

/** Shares of each value: [dimension][situation][value]. */
type Habits = readonly (readonly (readonly number[])[])[];

interface Season {
  readonly start: Habits;
  readonly end: Habits;
}

/** A league drawn from its seed: field, players, games and plays, all anew. */
export function simulateLeague(settings: LeagueSettings): League {
  const random = quickRandom(seededRandom(settings.seed));
  const field: Habits = SIMULATED.map(({ values }) =>
    SITUATIONS.map(() => drawDirichlet(random, new Array<number>(values).fill(1.5))),
  );
  const planted: PlantedHabit[] = [];
  const players: Season[] = Array.from({ length: settings.players }, (_, player) => {
    const special = random() < settings.specialists;
    const habits = varied(random, field, special ? 3 : settings.concentration);
    const start = settings.planted > 0 ? plant(random, habits, player, settings.planted, planted) : habits;
    return { start, end: varied(random, start, settings.driftConcentration) };
  });
  const plays = drawPlays(random, settings, players);
  const seasons = players.map((season) => during(season, 0.5));
  return {
    ...plays,
    planted,
    truth: (player, ...cell) => shareIn(seasons[player], ...cell),
    fieldTruth: (...cell) => shareIn(field, ...cell),
  };
}

function shareIn(habits: Habits | undefined, dimension: string, situation: string, value: number): number {
  const place = SIMULATED.findIndex((simulated) => simulated.dimension === dimension);
  const at = SITUATIONS.findIndex(({ name }) => name === situation);
  return habits?.[place]?.[at]?.[value] ?? Number.NaN;
}

/** @param passed - how much of the season, in [0, 1] */
function during({ start, end }: Season, passed: number): Habits {
  if (start === end) return start;
  return start.map((situations, place) =>
    situations.map((shares, at) =>
      shares.map((share, value) => share + passed * ((end[place]?.[at]?.[value] ?? 0) - share)),
    ),
  );
}

function varied(random: RandomSource, habits: Habits, concentration: number): Habits {
  if (!Number.isFinite(concentration)) return habits;
  return habits.map((situations) =>
    situations.map((shares) =>
      drawDirichlet(
        random,
        shares.map((share) => Math.max(1e-6, share * concentration)),
      ),
    ),
  );
}

function plant(random: RandomSource, habits: Habits, player: number, more: number, planted: PlantedHabit[]): Habits {
  const place = Math.floor(random() * SIMULATED.length);
  // Where a plan would be made against it: the three situations that occur most.
  const at = [0, 1, 4][Math.floor(random() * 3)] ?? 0;
  const { dimension, values } = SIMULATED[place] ?? SIMULATED[0];
  const value = Math.floor(random() * values);
  planted.push({
    player,
    dimension,
    situation: SITUATIONS[at]?.name ?? '',
    termKey: `term:${termId(dimension, value)}`,
  });
  return habits.map((situations, each) =>
    situations.map((shares, where) => (each === place && where === at ? raised(shares, value, more) : shares)),
  );
}

function raised(shares: readonly number[], value: number, more: number): readonly number[] {
  const before = shares[value] ?? 0;
  const after = Math.min(0.95, before + more);
  return shares.map((share, each) => (each === value ? after : (share * (1 - after)) / (1 - before)));
}

export function termId(dimension: (typeof SIMULATED)[number]['dimension'], value: number): number {
  return starterVocabulary().rows(dimension)[value]?.id ?? -1;
}

function drawPlays(
  random: RandomSource,
  settings: LeagueSettings,
  players: readonly Season[],
): { readonly facts: TendencyPlays; readonly playerOf: Int32Array } {
  const charts: ChartKey[] = [];
  const rows: { player: number; chart: number; situation: number; success: number; codes: number[] }[] = [];
  players.forEach((season, player) => {
    for (let game = 0; game < settings.games; game += 1) {
      const chart = charts.push({ chartId: `chart-${charts.length}`, gameId: `game-${charts.length}` }) - 1;
      const passed = settings.games === 1 ? 0.5 : game / (settings.games - 1);
      const plan = varied(random, during(season, passed), settings.gameConcentration);
      const [fewest, most] = settings.snaps;
      const snaps = fewest + Math.floor(random() * (most - fewest + 1));
      for (let snap = 0; snap < snaps; snap += 1) {
        const situation = draw(random, SITUATION_SHARES);
        const codes = plan.map((situations) =>
          random() < settings.known ? draw(random, situations[situation] ?? []) : -1,
        );
        rows.push({ player, chart, situation, success: random() < 0.45 ? 1 : 0, codes });
      }
    }
  });
  const columns = new Map<(typeof SIMULATED)[number]['dimension'], Column>(
    SIMULATED.map(({ dimension, values }, place) => [
      dimension,
      {
        codes: Int16Array.from(rows, ({ codes }) => codes[place] ?? -1),
        meanings: Array.from({ length: values }, (_, value) => termId(dimension, value)),
      },
    ]),
  );
  const plays = new PlayColumns({
    charts,
    chartIndex: Int32Array.from(rows, ({ chart }) => chart),
    playNumber: Uint16Array.from(rows, (_, place) => place + 1),
    orderInGame: Uint16Array.from(rows, (_, place) => place + 1),
    offenseIsHome: new Uint8Array(rows.length),
    columns,
  });
  const facts: TendencyPlays = {
    plays,
    situation: Int8Array.from(rows, ({ situation }) => situation),
    situationNames: SITUATIONS.map(({ name }) => name),
    counts: new Uint8Array(rows.length).fill(1),
    hasResult: new Uint8Array(rows.length).fill(1),
    success: Int8Array.from(rows, ({ success }) => success),
    explosive: new Int8Array(rows.length).fill(-1),
    called: new Int8Array(rows.length).fill(-1),
  };
  return { facts, playerOf: Int32Array.from(rows, ({ player }) => player) };
}

/**
 * Quick, since leagues are drawn by the hundred: uniform in (0, 1), from 32 bits. Seeded by the slower generator.
 *
 * @see Marsaglia (2003), J. Stat. Softw. 8(14), xorshift
 */
function quickRandom(random: RandomSource): RandomSource {
  let state = Math.floor(random() * 2 ** 31) + 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

function draw(random: RandomSource, shares: readonly number[]): number {
  let rest = random();
  for (let value = 0; value < shares.length; value += 1) {
    rest -= shares[value] ?? 0;
    if (rest < 0) return value;
  }
  return shares.length - 1;
}

/** The plays of one player as a batch of their own. */
export function playsOf({ facts, playerOf }: League, player: number): TendencyPlays {
  const pick = Int32Array.from(playerOf.keys()).filter((play) => playerOf[play] === player);
  const { plays } = facts;
  const bytes = (from: Int8Array): Int8Array => Int8Array.from(pick, (play) => from[play] ?? -1);
  const columns = new Map(
    [...plays.columns].map(([name, column]): [typeof name, Column] => {
      if (!('codes' in column) || 'starts' in column) return [name, column];
      return [name, { codes: Int16Array.from(pick, (play) => column.codes[play] ?? -1), meanings: column.meanings }];
    }),
  );
  return {
    plays: new PlayColumns({
      charts: plays.charts,
      chartIndex: Int32Array.from(pick, (play) => plays.chartIndex[play] ?? 0),
      playNumber: Uint16Array.from(pick, (play) => plays.playNumber[play] ?? 0),
      orderInGame: Uint16Array.from(pick, (play) => plays.orderInGame[play] ?? 0),
      offenseIsHome: new Uint8Array(pick.length),
      columns,
    }),
    situation: bytes(facts.situation),
    situationNames: facts.situationNames,
    counts: new Uint8Array(pick.length).fill(1),
    hasResult: new Uint8Array(pick.length).fill(1),
    success: bytes(facts.success),
    explosive: bytes(facts.explosive),
    called: bytes(facts.called),
  };
}
