import { playField } from '#domain/charting/play-fields.js';
import { UNKNOWN_CODE, UNKNOWN_NUMBER } from '#domain/charting/play-columns.js';
import { readCell } from '#domain/charting/read-cell.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { printed } from '../../common/printed.js';
import { ApiError } from '../../common/problems.js';
import type { CountingChart } from '../charts/charts.service.js';

/** Which games and plays a figure draws on; a part that is absent leaves everything in. */
export interface TendencyFilter {
  /** An event as its several records. */
  readonly eventIds?: readonly string[];
  /** Identity of the opponent, not any record's id. */
  readonly opponent?: string;
  /** Dates, YYYY-MM-DD; a game without a date is left out once either is given. */
  readonly from?: string;
  readonly to?: string;
  readonly rulesVersion?: string;
  readonly importance?: string;
  /** Only games whose chart looked at every snap. */
  readonly allSnaps?: boolean;
  /** Field and value that every play must have, as `coverage:cover 3`. */
  readonly cues?: readonly string[];
}

/** The games that the filter leaves in. */
export function filteredCharts(charts: readonly CountingChart[], filter: TendencyFilter): CountingChart[] {
  const { eventIds, opponent, from, to, rulesVersion, importance, allSnaps } = filter;
  return charts.filter(
    (chart) =>
      (eventIds === undefined || (chart.eventId !== null && eventIds.includes(chart.eventId))) &&
      (opponent === undefined || chart.homePlayerId === opponent || chart.awayPlayerId === opponent) &&
      (from === undefined || (chart.playedOn ?? '') >= from) &&
      (to === undefined || (chart.playedOn !== null && chart.playedOn <= to)) &&
      (rulesVersion === undefined || chart.rulesVersion === rulesVersion) &&
      (importance === undefined || chart.importance === importance) &&
      (allSnaps !== true || chart.allSnaps),
  );
}

/**
 * The same plays, of which only those count that have every cue. They are classified first and filtered then: what
 * follows from the play before must not change with what is asked for.
 */
export function withCues(facts: TendencyPlays, cues: readonly string[], vocabulary: Vocabulary): TendencyPlays {
  if (cues.length === 0) return facts;
  const conditions = cues.map((cue) => condition(facts, cue, vocabulary));
  return {
    ...facts,
    counts: facts.counts.map((counts, play) => (conditions.every((holds) => holds(play)) ? counts : 0)),
  };
}

function condition({ plays }: TendencyPlays, cue: string, vocabulary: Vocabulary): (play: number) => boolean {
  const [name = '', ...rest] = cue.split(':');
  const word = rest.join(':').trim();
  const field = playField(name.trim());
  if (field === undefined || rest.length === 0) throw badCue(cue, 'a field of the catalogue, a colon and its value');
  const reading = readCell(field, field.type === 'terms' ? [word] : word, vocabulary);
  if (!reading.ok) throw badCue(cue, reading.expected);
  const wanted = typeof reading.value === 'object' ? reading.value?.[0] : reading.value;
  if (wanted === undefined) throw badCue(cue, 'a value that was seen; unknown is none');
  switch (field.type) {
    case 'number': {
      const { values } = plays.number(field.name);
      return (play) => values[play] === wanted && values[play] !== UNKNOWN_NUMBER;
    }
    case 'choice':
    case 'term': {
      const { codes, meanings } = plays.code(field.name);
      const fits = meanings.map((meaning) =>
        field.type === 'choice' ? meaning === wanted : vocabulary.isWithin(meaning, wanted),
      );
      return (play) => fits[codes[play] ?? UNKNOWN_CODE] === true;
    }
    case 'terms': {
      const { starts, codes, meanings } = plays.list(field.name);
      const fits = meanings.map((meaning) => vocabulary.isWithin(meaning, wanted));
      return (play) => codes.subarray(starts[play], starts[play + 1]).some((code) => fits[code] === true);
    }
  }
}

function badCue(cue: string, expected: string): ApiError {
  return new ApiError('request.invalid', 'a cue cannot be understood', {
    errors: [{ field: 'cue', found: printed(cue), expected }],
  });
}

const MS_A_DAY = 86_400_000;

/**
 * Recency weights: a play counts half for every half-life that its game is older than the newest one. Relative to the
 * newest game and not to today, so that the same film gives the same figures next week. A game without a date counts as
 * the oldest one.
 */
export function recencyWeights(
  { plays }: TendencyPlays,
  charts: readonly CountingChart[],
  halfLifeDays: number,
): Float64Array {
  const dates = charts.map(({ playedOn }) => (playedOn === null ? null : Date.parse(playedOn)));
  const known = dates.filter((date) => date !== null);
  const [newest, oldest] = [Math.max(...known), Math.min(...known)];
  const weights = dates.map((date) =>
    known.length === 0 ? 1 : 0.5 ** ((newest - (date ?? oldest)) / MS_A_DAY / halfLifeDays),
  );
  return Float64Array.from(plays.chartIndex, (chart) => weights[chart] ?? 1);
}
