import { PlayColumns, type ChartKey, type Column } from '../../charting/play-columns.js';
import { starterVocabulary } from '../../charting/vocabulary.js';
import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import type { WhoAndWhen } from '../usage-counts.js';

// Test support: leagues over three events whose truth is known. Its seeds are its own.

export interface TrendLeagueSettings {
  readonly seed: number;
  /** Players who have taken up the planted call by each event; all 0 plants nothing. */
  readonly adopters: readonly number[];
  /** Share of an adopter's plays that become the planted call. */
  readonly taken: number;
  /** One player whose use of a call goes from nothing to three plays of five, and who plays three times as much. */
  readonly heavyUser: boolean;
  /** As in the demo league when left out. */
  readonly size?: LeagueSize;
}

export interface LeagueSize {
  readonly players: number;
  /** Of the players in each event. */
  readonly entrants: number;
  readonly events: number;
}

export interface TrendLeague extends WhoAndWhen {
  readonly facts: TendencyPlays;
  /** Key of the planted call's value, of the concept. */
  readonly plantedKey: string;
  readonly heavyKey: string;
}

export const USUAL_SIZE: LeagueSize = { players: 24, entrants: 16, events: 3 };
const CONCEPTS = 25;
const FORMATIONS = 12;
const [PLANTED, HEAVY] = [3, 4];
/** How closely players keep to the field and games to players: as in the demo league. */
const [PLAYER_CLOSENESS, PLAN_CLOSENESS] = [40, 70];

/** A league drawn from its seed: who enters what, how many games they play, and every snap. */
export function trendLeague(settings: TrendLeagueSettings): TrendLeague {
  const { seed, adopters, taken, heavyUser, size = USUAL_SIZE } = settings;
  const random = seededRandom(seed);
  const field = { concept: habits(random, CONCEPTS), formation: habits(random, FORMATIONS) };
  // A call that nobody plays yet is where a story begins.
  field.concept[PLANTED] = 0.004;
  const players = Array.from({ length: size.players }, () => ({
    concept: around(random, field.concept, PLAYER_CLOSENESS),
    formation: around(random, field.formation, PLAYER_CLOSENESS),
  }));
  const charts: ChartKey[] = [];
  const eventOf: number[] = [];
  const rows: { player: number; chart: number; concept: number; formation: number; success: number }[] = [];
  for (let event = 0; event < size.events; event += 1) {
    for (const player of entrants(random, size)) {
      const games = (1 + Math.floor(random() * 4)) * (heavyUser && player === 0 ? 3 : 1);
      for (let game = 0; game < games; game += 1) {
        const own = players[player] ?? { concept: [], formation: [] };
        const plan = around(random, own.concept, PLAN_CLOSENESS);
        const looks = around(random, own.formation, PLAN_CLOSENESS);
        const chart = charts.push({ chartId: `chart-${charts.length}`, gameId: `game-${charts.length}` }) - 1;
        eventOf.push(event);
        const snaps = 25 + Math.floor(random() * 20);
        for (let snap = 0; snap < snaps; snap += 1) {
          let concept = draw(random, plan);
          if (player < (adopters[event] ?? 0) && random() < taken) concept = PLANTED;
          if (heavyUser && player === 0 && random() < 0.3 * event) concept = HEAVY;
          const isKnown = random() < 0.88;
          const formation = draw(random, looks);
          rows.push({ player, chart, concept: isKnown ? concept : -1, formation, success: random() < 0.45 ? 1 : 0 });
        }
      }
    }
  }
  const column = (name: 'concept' | 'formation', values: number): [typeof name, Column] => [
    name,
    { codes: Int16Array.from(rows, (row) => row[name]), meanings: terms(name, values) },
  ];
  const count = rows.length;
  return {
    facts: {
      plays: new PlayColumns({
        charts,
        chartIndex: Int32Array.from(rows, ({ chart }) => chart),
        playNumber: Uint16Array.from(rows, (_, place) => place + 1),
        orderInGame: Uint16Array.from(rows, (_, place) => place + 1),
        offenseIsHome: new Uint8Array(count),
        columns: new Map([column('concept', CONCEPTS), column('formation', FORMATIONS)]),
      }),
      situation: new Int8Array(count),
      situationNames: ['any'],
      counts: new Uint8Array(count).fill(1),
      hasResult: new Uint8Array(count).fill(1),
      success: Int8Array.from(rows, ({ success }) => success),
      explosive: new Int8Array(count).fill(-1),
      called: new Int8Array(count).fill(-1),
    },
    playerOf: Int32Array.from(rows, ({ player }) => player),
    players: size.players,
    eventOf: Int16Array.from(eventOf),
    events: size.events,
    plantedKey: `term:${terms('concept', CONCEPTS)[PLANTED] ?? -1}`,
    heavyKey: `term:${terms('concept', CONCEPTS)[HEAVY] ?? -1}`,
  };
}

function terms(kind: 'concept' | 'formation', values: number): number[] {
  return starterVocabulary()
    .rows(kind)
    .slice(0, values)
    .map(({ id }) => id);
}

/** The heavy user enters everything; of the others, whoever. */
function entrants(random: RandomSource, { players, entrants: entering }: LeagueSize): number[] {
  const others = Array.from({ length: players - 1 }, (_, player) => ({ player: player + 1, at: random() }));
  others.sort((one, other) => one.at - other.at);
  return [0, ...others.slice(0, entering - 1).map(({ player }) => player)];
}

function habits(random: RandomSource, values: number): number[] {
  return [...drawDirichlet(random, new Array<number>(values).fill(1.2))];
}

function around(random: RandomSource, shares: readonly number[], closeness: number): readonly number[] {
  return drawDirichlet(
    random,
    shares.map((share) => Math.max(1e-6, share * closeness)),
  );
}

function draw(random: RandomSource, shares: readonly number[]): number {
  let rest = random() * shares.reduce((sum, share) => sum + share, 0);
  for (let value = 0; value < shares.length; value += 1) {
    rest -= shares[value] ?? 0;
    if (rest < 0) return value;
  }
  return shares.length - 1;
}
