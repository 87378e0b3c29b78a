import { playField } from '../charting/play-fields.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { CALLED_NAMES } from '../football/called.js';
import { fieldOfTarget, type ForecastTarget, type TargetPlays } from './targets.js';

/** The classes that a forecast tells apart. */
export interface TargetClasses {
  /** What a person reads, in the order of the classes. */
  readonly names: readonly string[];
  /** One a play of the batch: its class, -1 where the target is not known. */
  readonly outcome: Int32Array;
}

/** Rarer calls than this among the training plays are pooled, and so is all that was never seen there. */
const FEWEST_PLAYS = 8;
const MOST_CLASSES = 24;
export const OTHER = 'any other';

/**
 * Run and pass; else the commonest values of the target among the training plays, and one class for all others.
 *
 * @param train - places of the training plays
 */
export function targetClasses(
  target: ForecastTarget,
  { codes, meanings }: TargetPlays,
  train: Int32Array,
  vocabulary: Vocabulary,
): TargetClasses {
  if (target === 'run-pass') return { names: CALLED_NAMES, outcome: codes };
  const counts = new Int32Array(meanings.length);
  for (const row of train) {
    const code = codes[row] ?? -1;
    if (code >= 0) counts[code] = (counts[code] ?? 0) + 1;
  }
  const common = [...counts.keys()]
    .filter((code) => (counts[code] ?? 0) >= FEWEST_PLAYS)
    .sort((a, b) => (counts[b] ?? 0) - (counts[a] ?? 0) || a - b)
    .slice(0, MOST_CLASSES);
  const classOf = new Map(common.map((code, place) => [code, place]));
  return {
    names: [...common.map((code) => nameOf(target, meanings[code] ?? -1, vocabulary)), OTHER],
    outcome: codes.map((code) => (code < 0 ? -1 : (classOf.get(code) ?? common.length))),
  };
}

function nameOf(target: ForecastTarget, meaning: number, vocabulary: Vocabulary): string {
  const field = playField(fieldOfTarget(target));
  if (field?.type === 'choice') return field.choices[meaning] ?? '';
  return vocabulary.byId(meaning)?.name ?? `term ${meaning}`;
}
