import { assertCount, assertPositive } from '../statistics/guards.js';
import { DOWNS, QUARTERS } from './expected-snaps.js';
import type {
  ChartingQueue,
  FieldSet,
  FilmBundle,
  FilmPart,
  QueueCell,
  QueueInput,
  QueueSegment,
} from './charting-queue-shape.js';

const MOST_SETTLED = 3;
/** Less than a snap is not worth opening a video for. */
const FEWEST_PLAYS = 1;
const ROUNDING = 1e-9;

/**
 * What to chart next, and who: the piece of film that takes most off what is not known of probable opponents a minute, then
 * the next one given the first, until nobody has time for another. The posterior variance of a share is expected to fall
 * from v to v (A + n) / (A + n + k) with k more plays, A the prior's weight and n the plays known; cells are weighted by the
 * odds of meeting, plays by how recent they are. Greedy: each piece goes to the charter with most time left, and nothing is
 * charted twice.
 *
 * @param input - cells and film of any number of players; minutes > 0, charters ≥ 1
 * @returns pieces in the order in which they were chosen
 * @throws DomainError `stats.invalid_number`, `stats.invalid_count`
 * @see the conjugate Dirichlet-multinomial: expected posterior variance, e.g. Gelman et al. (2013), Bayesian Data Analysis,
 *   3rd ed., ch. 2 (law of total variance); for sums of such terms greedy choice is within 1 - 1/e of the best (Nemhauser,
 *   Wolsey & Fisher 1978, Math. Program. 14, 265–294; from memory, for pieces of equal length)
 */
export function chartingQueue(input: QueueInput): ChartingQueue {
  const { cells, parts, bundles, fieldSets, minutes, charters } = input;
  assertPositive('minutes', minutes);
  assertCount('charters', charters, { min: 1, max: 100 });
  /** By cell, effective plays that the chosen pieces add. */
  const added = new Float64Array(cells.length);
  const cellsOf = byPlayerAndSide(cells);
  const done = new Set<FilmPart>();
  const used = new Array<number>(charters).fill(0);
  const candidates = candidatesOf(parts, bundles, fieldSets);
  const segments: QueueSegment[] = [];

  for (;;) {
    const charter = used.indexOf(Math.min(...used));
    const left = minutes - (used[charter] ?? 0);
    let best: { readonly candidate: Candidate; readonly left: readonly FilmPart[]; readonly gain: number } | null =
      null;
    let bestRate = 0;
    for (const candidate of candidates) {
      const open = candidate.parts.filter((part) => !done.has(part));
      const takes = minutesOf(open, candidate.fieldSet);
      if (playsOf(open) < FEWEST_PLAYS || takes > left + ROUNDING) continue;
      const gain = sum(gainsOf(open, candidate.fieldSet).map(({ gain: one }) => one));
      if (gain / takes <= bestRate) continue;
      bestRate = gain / takes;
      best = { candidate, left: open, gain };
    }
    if (best === null) break;
    const { candidate, left: open, gain } = best;
    const gains = gainsOf(open, candidate.fieldSet);
    for (const { at, plays } of gains) added[at] = (added[at] ?? 0) + plays;
    for (const part of open) done.add(part);
    const takes = minutesOf(open, candidate.fieldSet);
    segments.push({
      game: candidate.game,
      offenseIsHome: candidate.offenseIsHome,
      bundle: candidate.bundle,
      ...scopeOf(open),
      fieldSet: candidate.fieldSet,
      plays: playsOf(open),
      minutes: takes,
      charter,
      startsAfter: used[charter] ?? 0,
      gain,
      settles: [...gains]
        .sort((one, other) => other.gain - one.gain)
        .slice(0, MOST_SETTLED)
        .flatMap(({ at, plays, gain: one }) => {
          const cell = cells[at];
          return cell === undefined ? [] : [{ cell, plays, gain: one }];
        }),
    });
    used[charter] = (used[charter] ?? 0) + takes;
  }
  const nothing = new Float64Array(cells.length);
  return { segments, before: total(cells, nothing), after: total(cells, added) };

  function gainsOf(open: readonly FilmPart[], { dimensions }: FieldSet): { at: number; plays: number; gain: number }[] {
    const gains: { at: number; plays: number; gain: number }[] = [];
    const [first] = open;
    if (first === undefined) return gains;
    const concerned = [
      ...(cellsOf.get(`${first.offense} offense`) ?? []),
      ...(cellsOf.get(`${first.defense} defense`) ?? []),
    ];
    const bySituation = new Map<number, number>();
    for (const at of concerned) {
      const cell = cells[at];
      if (cell === undefined || !dimensions.has(cell.dimension)) continue;
      let snaps = bySituation.get(cell.situation);
      if (snaps === undefined) {
        snaps = sum(open.map(({ plays, recency }) => recency * (plays[cell.situation] ?? 0)));
        bySituation.set(cell.situation, snaps);
      }
      const plays = snaps * input.knownShare(cell.dimension);
      if (plays === 0) continue;
      const before = added[at] ?? 0;
      gains.push({ at, plays, gain: remaining(cell, before) - remaining(cell, before + plays) });
    }
    return gains;
  }
}

interface Candidate {
  readonly game: number;
  readonly offenseIsHome: boolean;
  readonly bundle: FilmBundle;
  readonly fieldSet: FieldSet;
  readonly parts: readonly FilmPart[];
}

/** What is left of a cell's variance after so many more plays, weighted by the odds of meeting. */
function remaining({ variance, weight, meeting }: QueueCell, plays: number): number {
  return (meeting * variance * weight) / (weight + plays);
}

function total(cells: readonly QueueCell[], added: Float64Array): number {
  return sum(cells.map((cell, at) => remaining(cell, added[at] ?? 0)));
}

function byPlayerAndSide(cells: readonly QueueCell[]): ReadonlyMap<string, readonly number[]> {
  const places = new Map<string, number[]>();
  for (const [at, { player, side }] of cells.entries()) {
    const key = `${player} ${side}`;
    places.set(key, [...(places.get(key) ?? []), at]);
  }
  return places;
}

function candidatesOf(
  parts: readonly FilmPart[],
  bundles: readonly FilmBundle[],
  fieldSets: readonly FieldSet[],
): Candidate[] {
  const films = new Map<string, FilmPart[]>();
  for (const part of parts) {
    const key = `${part.game} ${part.offenseIsHome ? 'home' : 'away'}`;
    films.set(key, [...(films.get(key) ?? []), part]);
  }
  return [...films.values()].flatMap((film) =>
    bundles.flatMap((bundle) => {
      const inside = film.filter(
        ({ down, quarter }) => (bundle.downs?.includes(down) ?? true) && (bundle.quarters?.includes(quarter) ?? true),
      );
      const [first] = inside;
      if (first === undefined) return [];
      const { game, offenseIsHome } = first;
      return fieldSets.map((fieldSet) => ({ game, offenseIsHome, bundle, fieldSet, parts: inside }));
    }),
  );
}

/** The scope that names these parts: all downs and all quarters go unsaid, so that overtime is in it. */
function scopeOf(parts: readonly FilmPart[]): Pick<QueueSegment, 'downs' | 'quarters'> {
  const named = (values: readonly number[], all: number): readonly number[] | null => {
    const distinct = [...new Set(values)].sort((one, other) => one - other);
    return distinct.length === all ? null : distinct;
  };
  return {
    downs: named(
      parts.map(({ down }) => down),
      DOWNS,
    ),
    quarters: named(
      parts.map(({ quarter }) => quarter),
      QUARTERS,
    ),
  };
}

function playsOf(parts: readonly FilmPart[]): number {
  return sum(parts.map(({ plays }) => sum(Array.from(plays))));
}

function minutesOf(parts: readonly FilmPart[], { secondsAPlay }: FieldSet): number {
  return (playsOf(parts) * secondsAPlay) / 60;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
