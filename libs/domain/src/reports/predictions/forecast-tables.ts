import { firstPlays } from '../../charting/play-columns.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import type { AdditiveShares } from '../../forecast/frozen/additive-shares.js';
import type { FreezingTask, FrozenForecast } from '../../forecast/frozen/freeze-forecast.js';
import { readSeenPart, seenParts, type SeenPart } from '../../forecast/frozen/seen-parts.js';
import { countCalls } from '../../forecast/live/call-archive.js';
import { FEWEST_TO_MODEL } from '../../forecast/live/call-model.js';
import { information } from '../../forecast/nested/information.js';
import type { ForecastTarget } from '../../forecast/targets.js';
import type { DimensionName, DimensionValue } from '../../tendencies/dimension-names.js';
import type { Side, TendencyPlays } from '../../tendencies/tendency-plays.js';
import { classesOfPlays } from './classes-of-plays.js';
import type { ForecastPart, ForecastRow, ForecastShares, ForecastTable, PredictedTable } from './predictions-shape.js';

/** Everything that a forecast may be learned from. */
export interface ForecastSource {
  /** Both sides' plays with every field, charts newest first. */
  readonly facts: TendencyPlays;
  /** For each play the number of the player whose habit it shows, by side. */
  readonly playerOf: Readonly<Record<Side, Int32Array>>;
  /** Number of the player, -1 where the archive has none. */
  readonly player: number;
  readonly vocabulary: Vocabulary;
}

/** A table to be filled: what is to be worked out, and how it will be read. */
export interface PlannedForecast {
  readonly table: PredictedTable;
  readonly task: FreezingTask;
  /** In the order of the task's. */
  readonly parts: readonly { readonly reads: SeenPart; readonly values: readonly DimensionValue[] }[];
}

const TARGETS: Partial<Record<DimensionName, ForecastTarget>> = {
  called: 'run-pass',
  callFamily: 'call-family',
  front: 'front',
  coverage: 'coverage',
  pressure: 'pressure',
};

/**
 * The newest whole games with so many plays are looked at: a report is waited for, and 20,000, which the forecast of next
 * calls learns from, gain 0.002 to 0.003 of log loss in twice the time (two simulated leagues of that size).
 */
const MOST_PLAYS = 12_000;
/**
 * Of those games, the newest that hold so many known calls are learned from, shared out over the classes beyond the first,
 * since a fit takes as long as it has calls times classes. Fewer lose: 12,000 cost 0.03 of the demo's call families.
 */
const MOST_CALLS = 20_000;
const DIGITS = 4;

/**
 * What is to be worked out for each table of a report, so that its card can judge the forecast beside the printed shares:
 * the same classes, of the same calls, without those of which too few are known. What is looked at shows before the call.
 *
 * @param tables - the printed shares of both sides
 */
export function planForecasts(source: ForecastSource, tables: readonly PredictedTable[]): PlannedForecast[] {
  const newest = { ...source, facts: newestGames(source.facts, (play) => source.facts.counts[play] === 1, MOST_PLAYS) };
  return tables.flatMap((table) => {
    const target = TARGETS[table.dimension];
    const planned = target === undefined ? null : planForecast(newest, table, target);
    return planned === null || planned.task.calls.rows.length < FEWEST_TO_MODEL ? [] : [planned];
  });
}

function planForecast(source: ForecastSource, table: PredictedTable, target: ForecastTarget): PlannedForecast {
  const { player, vocabulary } = source;
  const outcome = classesOfPlays(table, source.facts, vocabulary);
  const isCall = (play: number): boolean => source.facts.counts[play] === 1 && (outcome[play] ?? -1) >= 0;
  const facts = newestGames(source.facts, isCall, MOST_CALLS / Math.max(1, table.classes.length - 1));
  const rows = Int32Array.from(facts.plays.chartIndex.keys()).filter(isCall);
  const parts = seenParts(target)
    .map((reads) => ({ reads, ...readSeenPart(reads, facts, vocabulary) }))
    .filter(({ codes }) => information(Int32Array.from(codes), outcome, table.classes.length, rows) > 0);
  return {
    table,
    task: {
      calls: {
        ...{ target, facts, rows, names: table.classes.map(({ label }) => label) },
        classOf: Int32Array.from(rows, (row) => outcome[row] ?? 0),
        playerOf: source.playerOf[table.side].slice(0, facts.plays.count),
      },
      player,
      parts: parts.map(({ codes, values }) => ({ codes, values: values.length })),
    },
    parts: parts.map(({ reads, values }) => ({ reads, values })),
  };
}

/** @param frozen - what became of the task; null where the archive is too thin, which makes no table */
export function forecastTable(planned: PlannedForecast, frozen: FrozenForecast | null): ForecastTable[] {
  if (frozen === null) return [];
  const { side, dimension, label, classes } = planned.table;
  const { player, calls } = planned.task;
  const { rows, playerOf } = calls;
  const learnedFrom = {
    calls: rows.length,
    games: countCalls(calls, rows.keys()).games,
    ofPlayer: rows.filter((play) => player >= 0 && playerOf[play] === player).length,
  };
  const start = sharesOfRow(frozen, ({ start: shares }) => shares, 0, classes.length);
  return [{ ...{ side, dimension, label, classes, learnedFrom, start }, parts: forecastParts(planned, frozen) }];
}

/** Rows of the values that were seen, and of those plays on which the part was not known. */
function forecastParts({ table, task, parts }: PlannedForecast, frozen: FrozenForecast): ForecastPart[] {
  return parts.map(({ reads, values }, place) => {
    const codes = task.parts[place]?.codes;
    const seen = new Set(Array.from(task.calls.rows, (play) => codes?.[play] ?? -1));
    const row = (valueKey: string | null, at: number): ForecastRow => ({
      valueKey,
      ...sharesOfRow(frozen, (shares) => shares.parts[place], at, table.classes.length),
    });
    return {
      reads,
      rows: [
        ...values.flatMap(({ key }, code) => (seen.has(code) ? row(key, code) : [])),
        ...(seen.has(-1) ? [row(null, values.length)] : []),
      ],
    };
  });
}

function sharesOfRow(
  { player, anybody }: FrozenForecast,
  block: (shares: AdditiveShares) => Float64Array | undefined,
  at: number,
  classes: number,
): ForecastShares {
  const cut = (shares: AdditiveShares): number[] => printed(block(shares), at, classes);
  return { shares: cut(player), anybodyShares: cut(anybody) };
}

/** With as many digits as mean something. */
function printed(of: Float64Array | undefined, row: number, classes: number): number[] {
  return Array.from(of?.subarray(row * classes, (row + 1) * classes) ?? [], (share) =>
    Number(share.toPrecision(DIGITS)),
  );
}

/** The archive without its oldest games, so that a large one costs a report no more than a fair one. */
function newestGames(facts: TendencyPlays, isCounted: (play: number) => boolean, most: number): TendencyPlays {
  const { plays } = facts;
  let count = 0;
  for (let counted = 0; count < plays.count; count += 1) {
    const isNewGame = count > 0 && plays.chartIndex[count] !== plays.chartIndex[count - 1];
    if (isNewGame && counted >= most) break;
    if (isCounted(count)) counted += 1;
  }
  return {
    plays: firstPlays(plays, count),
    situation: facts.situation.slice(0, count),
    situationNames: facts.situationNames,
    counts: facts.counts.slice(0, count),
    hasResult: facts.hasResult.slice(0, count),
    success: facts.success.slice(0, count),
    explosive: facts.explosive.slice(0, count),
    called: facts.called.slice(0, count),
  };
}
