/** What the games of a sheet are put in order by. */
export type GameOrder = 'date' | 'season and week' | 'reference' | 'file';

/** What a sheet says of when a game was played; empty where it does not. */
export interface GameTime {
  readonly name: string;
  readonly date: string;
  readonly season: string;
  readonly week: string;
}

/**
 * Puts the games of a sheet in the order in which they were played: by date, else by season and week, else by a reference
 * that begins with a year and a month or week (`2025-09-14 ...`, `2025_02_...`), the first of these that every game has;
 * else the first that most games have, the others following the game that they stand behind in the file; else as they
 * stand. Games of the same time stay as they stand.
 *
 * @param games - in the order of the file
 * @returns places of the games in the order of time, with the number of each one's time, by what, and how many games do not
 *   say it
 */
export function gamesInTime(games: readonly GameTime[]): {
  readonly places: number[];
  /** One a place: from 0, the same for games of the same time; where nothing says it each is at its own. */
  readonly rounds: number[];
  readonly by: GameOrder;
  readonly untimed: number;
} {
  const ways = (
    [
      ['date', datesOf(games.map(({ date }) => date))],
      ['season and week', games.map(({ season, week }) => wholeNumber(season, '0') * 1000 + wholeNumber(week, season))],
      ['reference', games.map(({ name }) => yearAndMore(name))],
    ] as const
  ).map(([by, times]) => ({ by, times, untimed: times.filter((time) => !Number.isFinite(time)).length }));
  const places = [...games.keys()];
  const found = ways.find(({ untimed }) => untimed === 0) ?? ways.find(({ untimed }) => untimed < games.length / 2);
  if (found === undefined) return { places, rounds: [...places], by: 'file', untimed: 0 };
  const { by, untimed } = found;
  const times = timedByNeighbours(found.times);
  places.sort((a, b) => (times[a] ?? 0) - (times[b] ?? 0) || a - b);
  let round = 0;
  const rounds = places.map((place, at) => {
    if (at > 0 && times[place] !== times[places[at - 1] ?? -1]) round += 1;
    return round;
  });
  return { places, rounds, by, untimed };
}

/** A game that does not say when it was has the time of the one before it in the file; at the head, of the next one. */
function timedByNeighbours(times: readonly number[]): number[] {
  let last = times.find((time) => Number.isFinite(time)) ?? 0;
  return times.map((time) => {
    if (Number.isFinite(time)) last = time;
    return last;
  });
}

/** A number for each date, rising with time; NaN for what is none. */
function datesOf(texts: readonly string[]): number[] {
  const parts = texts.map((text) => SLASHED.exec(text)?.slice(1).map(Number) ?? null);
  // 3/9/2025 is read by what the other dates of the column allow: the month first unless that cannot be, or dots part it.
  const dayIsFirst =
    parts.some((part) => (part?.[0] ?? 0) > 12) || texts.some((text) => text.includes('.') && SLASHED.test(text));
  return texts.map((text, at) => {
    const part = parts[at] ?? null;
    if (part !== null) {
      const [first = 0, second = 0, year = 0] = part;
      return dateOf(year, dayIsFirst ? second : first, dayIsFirst ? first : second);
    }
    const [, year, month, day, rest = ''] = YEAR_FIRST.exec(text) ?? [];
    const date = dateOf(Number(year), Number(month), Number(day));
    // A time of day settles two games of one day; an offset from Greenwich needs the whole text.
    const moment = rest === '' ? Number.NaN : Date.parse(text.replace(' ', 'T'));
    return Number.isNaN(date) || Number.isNaN(moment) ? date : moment;
  });
}

const SLASHED = /^(\d{1,2})[/.](\d{1,2})[/.](\d{4})\b/;
const YEAR_FIRST = /^(\d{4})[-/.]?(\d\d)[-/.]?(\d\d)(?!\d)(.*)$/;

function dateOf(year: number, month: number, day: number): number {
  const fits = month >= 1 && month <= 12 && day >= 1 && day <= 31;
  return fits ? Date.UTC(year, month - 1, day) : Number.NaN;
}

/** The number; where the cell is empty 0, if `other` says something. */
function wholeNumber(cell: string, other: string): number {
  if (cell === '') return other === '' ? Number.NaN : 0;
  return /^\d+(\.0*)?$/.test(cell) ? Math.trunc(Number(cell)) : Number.NaN;
}

function yearAndMore(name: string): number {
  const [, year, next, last = '0'] = /^((?:19|20)\d\d)[-_ ]?(\d\d)(?:[-_ ]?(\d\d))?/.exec(name) ?? [];
  return Number(year) * 10_000 + Number(next) * 100 + Number(last);
}
