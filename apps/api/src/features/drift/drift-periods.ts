import { periodsByHalf, periodsOfGames, type Periods } from '#domain/tendencies/drift/periods.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import type { StretchWords } from '#domain/tendencies/words/drift-words.js';
import { ApiError } from '../../common/problems.js';
import type { CountingChart } from '../charts/charts.service.js';
import type { DriftQuery } from './drift.dto.js';

/** What is held against what. */
export interface Cut {
  readonly unit: 'game' | 'half';
  readonly earlier: string;
  readonly recent: string;
  /** Before and since where left out. */
  readonly when?: StretchWords;
  readonly periodsOf: (facts: TendencyPlays, charts: readonly CountingChart[]) => Periods;
}

type WantedDrift = Pick<DriftQuery, 'split' | 'before' | 'after'>;

/**
 * How a query parts the games.
 *
 * @param charts - the player's games, the newest first
 * @throws ApiError `request.invalid` for a split beside a day or an event
 */
export function cutOf({ split, before, after }: WantedDrift, charts: readonly CountingChart[]): Cut {
  if (before !== undefined || after !== undefined) {
    if (split !== undefined) throw bothWays(split);
    return byDayOrEvent(before, after);
  }
  switch (split) {
    case 'half':
      return {
        unit: 'half',
        earlier: 'first halves',
        recent: 'second halves',
        when: { earlier: 'in first halves', recent: 'in second halves' },
        periodsOf: (facts) => periodsByHalf(facts),
      };
    case 'rules':
      return byRules(charts);
    case 'importance':
      return byImportance();
    default:
      return byGames(charts.length);
  }
}

function bothWays(split: string): ApiError {
  return new ApiError('request.invalid', 'games are parted by a split, or by before and after', {
    errors: [{ field: 'split', found: split, expected: 'to be left out beside before or after' }],
  });
}

/** The newer half; of an odd number the game in the middle is recent. */
function byGames(games: number): Cut {
  const recent = Math.ceil(games / 2);
  return {
    unit: 'game',
    earlier: 'older half of the games',
    recent: 'newer half of the games',
    periodsOf: (facts, charts) =>
      partedGames(
        facts,
        charts,
        (_, place) => place >= recent,
        (_, place) => place < recent,
      ),
  };
}

/** What only one side is told of is the rest on the other. */
function byDayOrEvent(before: string | undefined, after: string | undefined): Cut {
  const isEarlier = before === undefined ? null : (chart: CountingChart) => isBefore(chart, before);
  const isRecent = after === undefined ? null : (chart: CountingChart) => isSince(chart, after);
  return {
    unit: 'game',
    earlier: before === undefined ? 'games before that' : labelOf(before, 'games before'),
    recent: after === undefined ? 'games since' : labelOf(after, 'games since'),
    periodsOf: (facts, charts) =>
      partedGames(
        facts,
        charts,
        isEarlier ?? ((chart) => dated(chart, after) && isRecent?.(chart) === false),
        isRecent ?? ((chart) => dated(chart, before) && isEarlier?.(chart) === false),
      ),
  };
}

function byRules(charts: readonly CountingChart[]): Cut {
  const versions = charts.flatMap(({ rulesVersion }) => (rulesVersion === null ? [] : [rulesVersion]));
  const [newest] = versions;
  const others = new Set(versions.filter((version) => version !== newest));
  return {
    unit: 'game',
    earlier: others.size === 0 ? 'no earlier rules version' : `rules ${[...others].join(', ')}`,
    recent: newest === undefined ? 'no rules version' : `rules ${newest}`,
    periodsOf: (facts, of) =>
      partedGames(
        facts,
        of,
        ({ rulesVersion }) => rulesVersion !== null && others.has(rulesVersion),
        ({ rulesVersion }) => rulesVersion !== null && rulesVersion === newest,
      ),
  };
}

/** Neither holds scrimmages, where nothing hangs on what is shown. */
function byImportance(): Cut {
  return {
    unit: 'game',
    earlier: 'group games',
    recent: 'elimination games',
    when: { earlier: 'in group games', recent: 'in elimination games' },
    periodsOf: (facts, charts) =>
      partedGames(
        facts,
        charts,
        ({ importance }) => importance === 'group',
        ({ importance }) => importance === 'elimination',
      ),
  };
}

type Belongs = (chart: CountingChart, place: number) => boolean;

function partedGames(
  facts: TendencyPlays,
  charts: readonly CountingChart[],
  isEarlier: Belongs,
  isRecent: Belongs,
): Periods {
  const places = (belongs: Belongs): number[] => [...charts.keys()].filter((place) => holds(charts, place, belongs));
  return periodsOfGames(facts, places(isEarlier), places(isRecent));
}

function holds(charts: readonly CountingChart[], place: number, belongs: Belongs): boolean {
  const chart = charts[place];
  return chart !== undefined && belongs(chart, place);
}

function isDay(text: string): boolean {
  return text.length === 'YYYY-MM-DD'.length;
}

/** A game without a date is on neither side of a day. */
function dated({ playedOn }: CountingChart, cut: string | undefined): boolean {
  return cut === undefined || !isDay(cut) || playedOn !== null;
}

function isBefore({ playedOn, eventId }: CountingChart, cut: string): boolean {
  return isDay(cut) ? playedOn !== null && playedOn < cut : eventId === cut.toLowerCase();
}

function isSince({ playedOn, eventId }: CountingChart, cut: string): boolean {
  return isDay(cut) ? playedOn !== null && playedOn >= cut : eventId === cut.toLowerCase();
}

function labelOf(cut: string, ofDay: string): string {
  return isDay(cut) ? `${ofDay} ${cut}` : `games of event ${cut.toLowerCase()}`;
}
