import { PlayColumns, type ChartKey, type Column } from '../../../charting/play-columns.js';
import { playField, type PlayFieldName, type TermKind } from '../../../charting/play-fields.js';
import { calledRunOrPass, starterVocabulary } from '../../../charting/vocabulary.js';
import { drawDirichlet } from '../../../statistics/draw-dirichlet.js';
import { seededRandom, type RandomSource } from '../../../statistics/seeded-random.js';
import type { TendencyPlays } from '../../tendency-plays.js';
import { draw, pick, whole } from './draws.js';
import { plant, type Concept, type PlantedSize, type Row } from './plant-tell.js';

// Test support: plays of one offense with known truth, for the finder of tells to be judged by. It shares nothing with
// the finder, and draws every parameter anew from its seed.

export interface TellLeagueSettings {
  readonly seed: number;
  readonly games: number;
  readonly playsAGame: number;
  /** Whether each game has a plan: its own shares of cues and calls, far from the player's usual ones. */
  readonly plans: boolean;
  readonly planted: PlantedSize | null;
  /** Whether one formation is used mostly on third and long. */
  readonly confounded: boolean;
}

export interface PlantedTell {
  readonly cue: CueField;
  /** Code in the cue's column; its term or choice is the meaning of that code. */
  readonly value: number;
  readonly key: string;
  readonly dimension: 'called' | 'callFamily' | 'concept';
  readonly callKey: string;
}

export interface TellLeague {
  readonly facts: TendencyPlays;
  readonly planted: PlantedTell | null;
  /** Key of the formation that goes with third and long, where there is one. */
  readonly confoundedKey: string | null;
}

const CUES = [
  { field: 'formation', kind: 'formation', fewest: 8, most: 14, weight: 1.2 },
  { field: 'backfield', kind: 'backfield', fewest: 4, most: 7, weight: 1.5 },
  { field: 'motion', kind: 'motion', fewest: 4, most: 7, weight: 1.2 },
  { field: 'offensivePersonnel', kind: 'offensivePersonnel', fewest: 3, most: 6, weight: 1.2 },
  { field: 'tempo', kind: 'tempo', fewest: 2, most: 4, weight: 1.5 },
  { field: 'strength', kind: null, fewest: 3, most: 3, weight: 3 },
  { field: 'hash', kind: null, fewest: 3, most: 3, weight: 4 },
  { field: 'motionBy', kind: null, fewest: 4, most: 5, weight: 2 },
] as const satisfies readonly {
  readonly field: PlayFieldName;
  readonly kind: TermKind | null;
  readonly fewest: number;
  readonly most: number;
  readonly weight: number;
}[];
export type CueField = (typeof CUES)[number]['field'];

// Roughly as down and distance fall; common practice, no source.
const SITUATION_SHARES = [0.13, 0.05, 0.26, 0.02, 0.02, 0.06, 0.08, 0.11, 0.04, 0.05, 0.06, 0.05, 0.04, 0.02, 0.01];
const SITUATION_NAMES = SITUATION_SHARES.map((_, place) => `situation ${place}`);
/** Stands for third and long. */
const LONG = 11;

/** Prior weights in plays: of a situation against the player, of a game against the situation, and of a plan. */
const SITUATION_WEIGHT = 15;
const GAME_WEIGHT = 80;
const PLAN_WEIGHT = 12;

/** Shares of each value: [situation][value]. */
type Shares = readonly (readonly number[])[];

interface Habit {
  readonly usual: readonly number[];
  readonly bySituation: Shares;
}

export function tellLeague(settings: TellLeagueSettings): TellLeague {
  const random = seededRandom(settings.seed);
  const vocabulary = starterVocabulary();
  const concepts = pick(random, conceptsOfKnownFamily(), 14 + whole(random, 9));
  const calls = habit(random, concepts.length, 0.8);
  const depths = concepts.map(() => habit(random, 5, 1).bySituation);
  const sides = habit(random, 3, 3).bySituation;
  const cues = CUES.map(({ field, kind, fewest, most, weight }) => {
    const count = fewest + whole(random, most - fewest + 1);
    const terms =
      kind === null
        ? null
        : pick(
            random,
            vocabulary.rows(kind).map(({ id }) => id),
            count,
          );
    const meanings = terms ?? Array.from({ length: count }, (_, place) => place);
    return { field, meanings, habit: habit(random, meanings.length, weight) };
  });
  const known = 0.85 + 0.13 * random();

  const charts: ChartKey[] = [];
  const rows: Row[] = [];
  for (let game = 0; game < settings.games; game += 1) {
    charts.push({ chartId: `chart-${game}`, gameId: `game-${game}` });
    const weight = settings.plans ? PLAN_WEIGHT : GAME_WEIGHT;
    const cuesOfGame = cues.map((cue) => inOneGame(random, cue.habit, weight));
    const callsOfGame = inOneGame(random, calls, weight);
    for (let play = 0; play < settings.playsAGame; play += 1) {
      const situation = draw(random, SITUATION_SHARES);
      rows.push({
        game,
        situation,
        cues: cuesOfGame.map((shares) => draw(random, shares[situation] ?? [])),
        call: draw(random, callsOfGame[situation] ?? []),
      });
    }
  }

  const confoundedValue = settings.confounded ? confound(random, rows) : null;
  const plan = { random, rows, concepts, cues: cues.map(({ field, meanings }) => ({ field, size: meanings.length })) };
  const planted = settings.planted === null ? null : plant(plan, settings.planted);
  const keyOf = (place: number, value: number): string => {
    const cue = cues[place];
    return cue === undefined ? '' : keyOfMeaning(cue.field, cue.meanings[value] ?? -1);
  };

  const columns = new Map<PlayFieldName, Column>();
  cues.forEach(({ field, meanings }, place) => {
    // The planted number of cue plays is one of plays on which cue and call are charted.
    const keep = (row: Row): boolean =>
      random() < known || (place === planted?.place && row.cues[place] === planted.value);
    columns.set(field, {
      codes: Int16Array.from(rows, (row) => (keep(row) ? (row.cues[place] ?? -1) : -1)),
      meanings,
    });
  });
  const calledOf = concepts.map(({ id }) => (calledRunOrPass(vocabulary, null, id) === 'run' ? 0 : 1));
  const familyIds = [...new Set(concepts.map(({ family }) => family))];
  const isPlanted = (row: Row): boolean => planted !== null && row.cues[planted.place] === planted.value;
  const callKnown = rows.map((row) => random() < known || isPlanted(row));
  const whereKnown = (code: (row: Row) => number): Int16Array =>
    Int16Array.from(rows, (row, place) => (callKnown[place] === true ? code(row) : -1));
  columns.set('concept', { codes: whereKnown(({ call }) => call), meanings: concepts.map(({ id }) => id) });
  columns.set('callFamily', {
    codes: whereKnown(({ call }) => familyIds.indexOf(concepts[call]?.family ?? -1)),
    meanings: familyIds,
  });
  columns.set('designedSide', {
    codes: whereKnown(({ situation }) => draw(random, sides[situation] ?? [])),
    meanings: [0, 1, 2],
  });
  columns.set('targetDepth', {
    codes: whereKnown(({ call, situation }) =>
      calledOf[call] === 1 ? draw(random, depths[call]?.[situation] ?? []) : -1,
    ),
    meanings: vocabulary
      .rows('targetDepth')
      .slice(0, 5)
      .map(({ id }) => id),
  });
  columns.set('lineUpSecond', { values: Int16Array.from(rows, (_, place) => 5 * place) });
  columns.set('snapSecond', { values: Int16Array.from(rows, (_, place) => 5 * place + whole(random, 20)) });

  const called = whereKnown(({ call }) => calledOf[call] ?? -1);
  return {
    facts: factsOf(rows, charts, columns, Int8Array.from(called)),
    planted:
      planted === null
        ? null
        : {
            cue: planted.field,
            value: planted.value,
            key: keyOf(planted.place, planted.value),
            dimension: planted.dimension,
            callKey: planted.callKey,
          },
    confoundedKey: confoundedValue === null ? null : keyOf(0, confoundedValue),
  };
}

function keyOfMeaning(name: CueField, meaning: number): string {
  const field = playField(name);
  return field?.type === 'choice' ? (field.choices[meaning] ?? '') : `term:${meaning}`;
}

function conceptsOfKnownFamily(): Concept[] {
  const vocabulary = starterVocabulary();
  return vocabulary.rows('concept').flatMap(({ id }) => {
    const family = vocabulary.parentId(id);
    return family === null || calledRunOrPass(vocabulary, null, id) === null ? [] : [{ id, family }];
  });
}

function habit(random: RandomSource, values: number, weight: number): Habit {
  const usual = drawDirichlet(random, new Array<number>(values).fill(weight));
  const bySituation = SITUATION_SHARES.map(() => drawDirichlet(random, weighted(usual, SITUATION_WEIGHT)));
  return { usual, bySituation };
}

/** The shares of one game: each value more or less in favour than usual, in every situation alike. */
function inOneGame(random: RandomSource, { usual, bySituation }: Habit, weight: number): Shares {
  const ofGame = drawDirichlet(random, weighted(usual, weight));
  const favour = ofGame.map((share, value) => share / Math.max(SMALLEST_SHARE, usual[value] ?? 0));
  return bySituation.map((shares) => {
    const favoured = shares.map((share, value) => share * (favour[value] ?? 0));
    const sum = favoured.reduce((total, share) => total + share, 0);
    return favoured.map((share) => share / sum);
  });
}

const SMALLEST_SHARE = 1e-3;

function weighted(shares: readonly number[], weight: number): number[] {
  return shares.map((share) => Math.max(SMALLEST_SHARE, share * weight));
}

/** Three in five plays of third and long, and few others, come from one formation; the calls do not know of it. */
function confound(random: RandomSource, rows: readonly Row[]): number {
  const value = 0;
  for (const row of rows) {
    const share = row.situation === LONG ? 0.6 : 0.02;
    if (random() < share) row.cues[0] = value;
    else if (row.cues[0] === value) row.cues[0] = 1;
  }
  return value;
}

function factsOf(
  rows: readonly Row[],
  charts: readonly ChartKey[],
  columns: ReadonlyMap<PlayFieldName, Column>,
  called: Int8Array,
): TendencyPlays {
  const nothing = new Int8Array(rows.length).fill(-1);
  return {
    plays: new PlayColumns({
      charts,
      chartIndex: Int32Array.from(rows, ({ game }) => game),
      playNumber: Uint16Array.from(rows.keys(), (place) => place + 1),
      orderInGame: Uint16Array.from(rows.keys(), (place) => place + 1),
      offenseIsHome: new Uint8Array(rows.length).fill(1),
      columns,
    }),
    situation: Int8Array.from(rows, ({ situation }) => situation),
    situationNames: SITUATION_NAMES,
    counts: new Uint8Array(rows.length).fill(1),
    hasResult: new Uint8Array(rows.length).fill(1),
    success: nothing,
    explosive: nothing,
    called,
  };
}
