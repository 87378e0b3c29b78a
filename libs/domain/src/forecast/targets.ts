import { UNKNOWN_CODE } from '../charting/play-columns.js';
import { PLAY_FIELDS, type CodeFieldName, type PlayFieldName } from '../charting/play-fields.js';
import type { SnapFacts } from './forecast-snaps.js';

/** What can be forecast. */
export const FORECAST_TARGETS = [
  'run-pass',
  'call-family',
  'concept',
  'direction',
  'front',
  'coverage',
  'pressure',
] as const;
export type ForecastTarget = (typeof FORECAST_TARGETS)[number];

/**
 * How much may be seen: the situation and the tempo alone (and all that happened before), or also who and what shows until
 * the snap, up to the target itself.
 */
export const SIGHTS = ['situation', 'line'] as const;
export type Sight = (typeof SIGHTS)[number];

const FIELD_OF_TARGET: Readonly<Record<ForecastTarget, CodeFieldName>> = {
  'run-pass': 'called',
  'call-family': 'callFamily',
  concept: 'concept',
  direction: 'designedSide',
  front: 'front',
  coverage: 'coverage',
  pressure: 'pressure',
};

/** Whose habit the target is. */
export function sideOfTarget(target: ForecastTarget): 'offense' | 'defense' {
  return target === 'front' || target === 'coverage' || target === 'pressure' ? 'defense' : 'offense';
}

export function fieldOfTarget(target: ForecastTarget): CodeFieldName {
  return FIELD_OF_TARGET[target];
}

const FIRST_SEEN = PLAY_FIELDS.findIndex(({ name }) => name === 'offensivePersonnel');

/**
 * Fields of the play itself that a forecast may look at. The catalogue is in the order in which things become known, so
 * that is everything before the target, short of the snap; of a play that is not yet called nobody knows its own `snap`
 * and `after` fields, whatever their place.
 */
export function visibleFields(target: ForecastTarget, sight: Sight): ReadonlySet<PlayFieldName> {
  const key = `${target} ${sight}`;
  const known = VISIBLE.get(key) ?? fieldsBefore(target, sight);
  VISIBLE.set(key, known);
  return known;
}

const VISIBLE = new Map<string, ReadonlySet<PlayFieldName>>();

function fieldsBefore(target: ForecastTarget, sight: Sight): ReadonlySet<PlayFieldName> {
  const before = PLAY_FIELDS.findIndex(({ name }) => name === FIELD_OF_TARGET[target]);
  return new Set(
    PLAY_FIELDS.flatMap(({ name, knownAt }, place) => {
      if (knownAt === 'snap' || knownAt === 'after' || place >= before) return [];
      return sight === 'situation' && place >= FIRST_SEEN ? [] : [name];
    }),
  );
}

/** The plays to forecast, and what was called on them. */
export interface TargetPlays {
  /** Places of the plays, ascending: they count for call shares and the target is known. */
  readonly rows: Int32Array;
  /** One a play of the batch: place in `meanings`, -1 where not known. */
  readonly codes: Int32Array;
  /** What the codes stand for: 0 and 1 for run and pass, else a choice's place or a term's id. */
  readonly meanings: readonly number[];
}

export function targetPlays(snaps: SnapFacts, target: ForecastTarget): TargetPlays {
  const { plays, counts, called } = snaps;
  const column = plays.code(FIELD_OF_TARGET[target]);
  const codes = Int32Array.from(target === 'run-pass' ? called : column.codes);
  const rows: number[] = [];
  for (let play = 0; play < plays.count; play += 1) {
    if (counts[play] === 1 && codes[play] !== UNKNOWN_CODE) rows.push(play);
  }
  return { rows: Int32Array.from(rows), codes, meanings: target === 'run-pass' ? [0, 1] : column.meanings };
}
