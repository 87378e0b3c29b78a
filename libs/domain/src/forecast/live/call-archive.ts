import { PLAY_FIELDS, playField, type CodeFieldName } from '../../charting/play-fields.js';
import { CALLED_NAMES } from '../../football/called.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { joinKeys } from '../nested/context-keys.js';
import { information } from '../nested/information.js';
import { fitConcentrations } from '../nested/nested-shares.js';
import { fieldOfTarget, visibleFields, type ForecastTarget } from '../targets.js';

/** How many plays' worth each step of the way draws on the one before it. */
export interface StepWeights {
  readonly situation: number;
  readonly look: number;
  readonly player: number;
}

/** Some of an archive's calls. */
export interface CountedCalls {
  readonly known: number;
  readonly games: number;
  /** Count of each class. */
  readonly counts: Float64Array;
}

/** Everything that was called, ready to be asked what comes next. Arrays hold one entry a known call, in the batch's order. */
export interface CallArchive {
  readonly target: ForecastTarget;
  /** Names of the classes, and the class of each call. */
  readonly names: readonly string[];
  readonly classOf: Int32Array;
  /** Places of the calls in the batch. */
  readonly rows: Int32Array;
  readonly facts: TendencyPlays;
  readonly playerOf: Int32Array;
  /** Places in `rows`, ascending, of the calls in each situation and of each player, so that a question reads few calls. */
  readonly bySituation: ReadonlyMap<number, Int32Array>;
  readonly byPlayer: ReadonlyMap<number, Int32Array>;
  /** All of the calls. */
  readonly everybody: CountedCalls;
  /** Cues by how much they tell about the target, most first. */
  readonly cues: readonly CodeFieldName[];
  readonly weights: StepWeights;
}

/** Until they are fitted, or where that cannot be: the player's own calls weigh as much as 12 plays of everybody's. */
const UNFITTED: StepWeights = { situation: 30, look: 12, player: 12 };
const FEWEST_TO_FIT = 200;

/**
 * Prepares an archive for one target: classes, and which cues tell most. Its weights are those of an archive that nothing
 * was fitted to (see `fitStepWeights`).
 *
 * @param facts    - both sides' plays, charts newest first
 * @param playerOf - for each play the number of the player whose habit it shows, -1 for nobody's
 */
export function callArchive(
  target: ForecastTarget,
  facts: TendencyPlays,
  playerOf: Int32Array,
  vocabulary: Vocabulary,
): CallArchive {
  const { plays, counts, called } = facts;
  const column = plays.code(fieldOfTarget(target));
  const codes: ArrayLike<number> = target === 'run-pass' ? called : column.codes;
  const found: number[] = [];
  for (let play = 0; play < plays.count; play += 1)
    if (counts[play] === 1 && (codes[play] ?? -1) >= 0) found.push(play);
  const rows = Int32Array.from(found);
  const names = target === 'run-pass' ? [...CALLED_NAMES] : column.meanings.map((id) => nameOf(target, id, vocabulary));
  const classOf = Int32Array.from(rows, (row) => codes[row] ?? 0);
  const outcome = Int32Array.from({ length: plays.count }, (_, play) => codes[play] ?? -1);
  const cues = cuesOf(target)
    .filter((name) => plays.columns.has(name))
    .map((name) => ({
      name,
      tells: information(Int32Array.from(plays.code(name).codes), outcome, names.length, rows),
    }))
    .filter(({ tells }) => tells > 0)
    .sort((a, b) => b.tells - a.tells)
    .map(({ name }) => name);
  return {
    ...{ target, names, classOf, rows, facts, playerOf, cues, weights: UNFITTED },
    bySituation: placesBy(rows, facts.situation),
    byPlayer: placesBy(rows, playerOf),
    everybody: countCalls({ names, classOf, rows, facts }, rows.keys()),
  };
}

function placesBy(rows: Int32Array, keyOf: ArrayLike<number>): ReadonlyMap<number, Int32Array> {
  const sizes = new Map<number, number>();
  for (const row of rows) sizes.set(keyOf[row] ?? -1, (sizes.get(keyOf[row] ?? -1) ?? 0) + 1);
  const places = new Map(Array.from(sizes, ([key, size]) => [key, { of: new Int32Array(size), filled: 0 }]));
  rows.forEach((row, at) => {
    const group = places.get(keyOf[row] ?? -1);
    if (group !== undefined) group.of[group.filled++] = at;
  });
  return new Map(Array.from(places, ([key, { of }]) => [key, of]));
}

/** @param places - in `rows`, ascending, as the games stand in the batch */
export function countCalls(
  { names, classOf, rows, facts }: Pick<CallArchive, 'names' | 'classOf' | 'rows' | 'facts'>,
  places: Iterable<number>,
): CountedCalls {
  const counts = new Float64Array(names.length);
  let [known, games, last] = [0, 0, -1];
  for (const at of places) {
    known += 1;
    const chart = facts.plays.chartIndex[rows[at] ?? 0] ?? 0;
    if (chart !== last) games += 1;
    last = chart;
    const seen = classOf[at] ?? 0;
    counts[seen] = (counts[seen] ?? 0) + 1;
  }
  return { known, games, counts };
}

const FIRST_CUE = PLAY_FIELDS.findIndex(({ name }) => name === 'tempo');

/** Fields of words that show before the target does. */
export function cuesOf(target: ForecastTarget): CodeFieldName[] {
  const visible = visibleFields(target, 'line');
  return PLAY_FIELDS.slice(FIRST_CUE).flatMap((field) =>
    (field.type === 'term' || field.type === 'choice') && visible.has(field.name) ? [field.name] : [],
  );
}

/** The class of each play of an archive's batch, -1 where the target is not known. */
export function outcomeOf({ facts, rows, classOf }: Pick<CallArchive, 'facts' | 'rows' | 'classOf'>): Int32Array {
  const outcome = new Int32Array(facts.plays.count).fill(-1);
  rows.forEach((row, at) => {
    outcome[row] = classOf[at] ?? -1;
  });
  return outcome;
}

/** How many plays' worth one step of the evidence gives to the one before it: what forecasts each game best from the games before it. */
export function fitStepWeights(archive: CallArchive): StepWeights {
  const { facts, rows, names, cues, playerOf } = archive;
  if (rows.length < FEWEST_TO_FIT || names.length < 2) return UNFITTED;
  const newest = facts.plays.charts.length - 1;
  const game = Int32Array.from(facts.plays.chartIndex, (chart) => newest - chart);
  const inTime = Int32Array.from(rows).sort((a, b) => (game[a] ?? 0) - (game[b] ?? 0) || a - b);
  const situation = Int32Array.from(facts.situation);
  const [cue] = cues;
  const look = cue === undefined ? situation : joinKeys(situation, Int32Array.from(facts.plays.code(cue).codes));
  const [bySituation = UNFITTED.situation, byLook = UNFITTED.look, byPlayer = UNFITTED.player] = fitConcentrations(
    { game, rows: inTime, outcome: outcomeOf(archive), classes: names.length, untilGame: newest + 1 },
    { name: 'live', levels: [situation, look, joinKeys(look, playerOf)] },
  );
  return { situation: bySituation, look: byLook, player: byPlayer };
}

function nameOf(target: ForecastTarget, meaning: number, vocabulary: Vocabulary): string {
  const field = playField(fieldOfTarget(target));
  if (field?.type === 'choice') return field.choices[meaning] ?? '';
  return vocabulary.byId(meaning)?.name ?? `term ${meaning}`;
}
