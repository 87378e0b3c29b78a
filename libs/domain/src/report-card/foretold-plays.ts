import type { ScoredPlays } from '../forecast/scoring/forecast-scores.js';
import { readSeenPart } from '../forecast/frozen/seen-parts.js';
import { classesOfPlays } from '../reports/predictions/classes-of-plays.js';
import { LEAST_SHARE } from '../reports/predictions/predicted-tables.js';
import type { ForecastShares, ForecastTable, PredictedTable } from '../reports/predictions/predictions-shape.js';
import { opponentSnaps, type MatchPlays } from './match-plays.js';

/** Which of a report's probabilities are judged: the forecast's, or those of the shares that it prints. */
export type ForetoldBy = 'forecast' | 'shares';

/** The frozen probabilities of plays, those of the baseline beside them, and what was called. */
export interface ForetoldPlays {
  readonly by: ForetoldBy;
  /** Places of the plays on which the call is known. */
  readonly places: Int32Array;
  readonly report: ScoredPlays;
  /** The field's shares; beside a forecast, the forecast of a player of whom nothing is known. */
  readonly baseline: ScoredPlays;
}

/** Probabilities of some plays, one after the other. */
interface Foretold {
  readonly report: Float64Array;
  readonly baseline: Float64Array;
}

/**
 * What a frozen table held of each play. A call that has no class of its own is any other; a value outside a table of
 * fixed words cannot be scored. Of a play a forecast reads only what shows before its call.
 */
export function foretoldPlays(table: PredictedTable | ForecastTable, match: MatchPlays): ForetoldPlays {
  const outcomes = classesOfPlays(table, match.facts, match.vocabulary);
  const places = opponentSnaps(match, table.side).filter((play) => (outcomes[play] ?? -1) >= 0);
  const by = 'parts' in table ? 'forecast' : 'shares';
  const { report, baseline } = 'parts' in table ? byForecast(table, match, places) : byShares(table, match, places);
  const of = { outcome: places.map((play) => outcomes[play] ?? -1), classes: table.classes.length };
  return { by, places, report: { probabilities: report, ...of }, baseline: { probabilities: baseline, ...of } };
}

/** A situation that the table does not have, or that is not known, is read off all snaps. */
function byShares({ rows, classes }: PredictedTable, { facts }: MatchPlays, places: Int32Array): Foretold {
  const rowOf = new Map(rows.map((row) => [row.situation, row]));
  const filled = (of: 'shares' | 'fieldShares'): Float64Array => {
    const probabilities = new Float64Array(places.length * classes.length);
    places.forEach((play, at) => {
      const row = rowOf.get(facts.situationNames[facts.situation[play] ?? -1] ?? '') ?? rows[0];
      probabilities.set(row?.[of] ?? [], at * classes.length);
    });
    return probabilities;
  };
  return { report: filled('shares'), baseline: filled('fieldShares') };
}

/** The rule that `ForecastTable` states. It belongs to what was frozen: reports that were made under it are read by it. */
function byForecast(table: ForecastTable, { facts, vocabulary }: MatchPlays, places: Int32Array): Foretold {
  const parts = table.parts.map(({ reads, rows }) => {
    const { codes, values } = readSeenPart(reads, facts, vocabulary);
    const rowOf = new Map(rows.map((row) => [row.valueKey, row]));
    const byCode = values.map(({ key }) => rowOf.get(key));
    return (play: number): ForecastShares | undefined => {
      const code = codes[play] ?? -1;
      return code < 0 ? rowOf.get(null) : byCode[code];
    };
  });
  const filled = (of: keyof ForecastShares): Float64Array => {
    const probabilities = new Float64Array(places.length * table.classes.length);
    places.forEach((play, at) => {
      const rows = [table.start, ...parts.flatMap((rowOf) => rowOf(play) ?? [])];
      probabilities.set(multiplied(rows.map((row) => row[of])), at * table.classes.length);
    });
    return probabilities;
  };
  return { report: filled('shares'), baseline: filled('anybodyShares') };
}

/** Products by class that add up to 1, none below the least. */
function multiplied(rows: readonly (readonly number[])[]): number[] {
  const [first = []] = rows;
  const logs = first.map((_, k) => rows.reduce((sum, row) => sum + Math.log(row[k] ?? 1), 0));
  const top = Math.max(...logs);
  const sum = logs.reduce((total, log) => total + Math.exp(log - top), 0);
  const floored = logs.map((log) => Math.max(LEAST_SHARE, Math.exp(log - top) / sum));
  const all = floored.reduce((total, share) => total + share, 0);
  return floored.map((share) => share / all);
}
