import { filmScopeRank, type FilmScope } from './film-scope.js';
import type { ChartedPlay, PlayValue } from './play-columns.js';
import { alignPlays } from './reconcile-align.js';
import { coveredFields, coversPlay, hasNoDown, scopeTogether, placeOf } from './reconcile-scope.js';

/** One chart of a game. Own call logs are none: what was meant is kept apart from what was seen. */
export interface ChartOfGame {
  readonly chartId: string;
  readonly filmScope: FilmScope;
  /** ISO 8601 in UTC; null where nobody said, which counts as the oldest. */
  readonly chartedAt: string | null;
  readonly plays: readonly ChartedPlay[];
}

/** One snap as it counts, and where each part of it comes from. */
export interface ReconciledPlay {
  readonly orderInGame: number;
  readonly offenseIsHome: boolean;
  /** Aligned with PLAY_FIELDS. */
  readonly values: readonly PlayValue[];
  /** Aligned with PLAY_FIELDS: the place in `charts` of the chart that the value is from; -1 where it is unknown. */
  readonly from: readonly number[];
  /** Aligned with PLAY_FIELDS: whether another chart, of less weight, says something else. */
  readonly disputed: readonly boolean[];
  /** Aligned with `charts`: the number of this snap in each chart, null where the chart has not got it. */
  readonly members: readonly (number | null)[];
}

export interface Reconciliation {
  /** Ids of the charts by rising weight: the widest first, the newest last. */
  readonly charts: readonly string[];
  /** What the charts cover together, as far as one scope can say it. */
  readonly filmScope: FilmScope;
  /** In the order of the game. */
  readonly plays: readonly ReconciledPlay[];
}

/** A snap while charts are laid over each other; its order may still be that of the snap before it. */
interface Draft extends ReconciledPlay {
  /** All that any chart says of it, inside its fields or not: what it is recognised by. */
  readonly seen: readonly PlayValue[];
}

const DOWN = placeOf('down');

/**
 * What counts of the charts of one game, field by field. The charts are taken from the widest scope to the narrowest,
 * among equally wide ones from the oldest to the newest; each fills what those before it left open and overrides what they
 * said, inside its own scope and where it says something. A snap that only one chart has is kept if its scope covers it.
 * Deterministic, whatever the order in which the charts are given.
 *
 * Which plays are the same snap is `alignPlays`' business. A snap keeps the order that the widest chart gave it, moved
 * back only as far as snaps that this chart missed need room. The ball is with whom the last chart says that is not
 * limited to some fields. Where the play type that counts has no down, a down from another chart does not count.
 *
 * @param charts - at least one
 */
export function reconcileCharts(charts: readonly ChartOfGame[]): Reconciliation {
  const ordered = [...charts].sort(widestFirstNewestLast);
  let drafts: readonly Draft[] = [];
  const before: FilmScope[] = [];
  ordered.forEach((chart, place) => {
    const plays = [...chart.plays]
      .sort((one, other) => one.orderInGame - other.orderInGame)
      .filter((play) => coversPlay(chart.filmScope, play));
    drafts = lay(drafts, before, chart, plays, place, ordered.length);
    before.push(chart.filmScope);
  });
  return {
    charts: ordered.map(({ chartId }) => chartId),
    filmScope: scopeTogether(ordered.map(({ filmScope }) => filmScope)),
    plays: inOrder(drafts),
  };
}

function widestFirstNewestLast(one: ChartOfGame, other: ChartOfGame): number {
  const byWidth = filmScopeRank(one.filmScope) - filmScopeRank(other.filmScope);
  return byWidth || compare(one.chartedAt ?? '', other.chartedAt ?? '') || compare(one.chartId, other.chartId);
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

/** Lays one more chart over what those before it gave. */
function lay(
  drafts: readonly Draft[],
  before: readonly FilmScope[],
  chart: ChartOfGame,
  plays: readonly ChartedPlay[],
  place: number,
  charts: number,
): readonly Draft[] {
  const covered = coveredFields(chart.filmScope);
  const known = drafts.map((draft) => ({ ...draft, values: draft.seen }));
  const pairs = alignPlays({ plays: known, scopes: before }, { plays, scopes: [chart.filmScope] });
  const partners = new Map(pairs.map(([draft, play]) => [play, draft]));
  const laid: Draft[] = [];
  let next = 0;
  plays.forEach((play, at) => {
    const partner = partners.get(at);
    // Of two snaps that only one chart has each, the one with the lower order comes first.
    const goesBefore = ({ orderInGame }: Draft): boolean => orderInGame <= play.orderInGame;
    const limit = partner ?? pairs.find(([, paired]) => paired > at)?.[0] ?? drafts.length;
    for (let draft = drafts[next]; draft !== undefined && next < limit; draft = drafts[next]) {
      if (partner === undefined && !goesBefore(draft)) break;
      laid.push(draft);
      next += 1;
    }
    const under = partner === undefined ? undefined : drafts[partner];
    if (under === undefined) {
      const orderInGame = orderBetween(laid.at(-1), play, drafts[next]);
      laid.push({ ...begin(play, covered, place, charts), orderInGame });
    } else {
      laid.push(override(under, play, covered, place, chart.filmScope.fields === null));
      next += 1;
    }
  });
  return [...laid, ...drafts.slice(next)];
}

/** A snap's own order where it fits between its neighbours, else that of the one before it. */
function orderBetween(last: Draft | undefined, { orderInGame }: ChartedPlay, next: Draft | undefined): number {
  const least = last?.orderInGame ?? 0;
  const fits = orderInGame > least && orderInGame < (next?.orderInGame ?? Number.POSITIVE_INFINITY);
  return fits ? orderInGame : least;
}

/** A snap that no chart before had. Its type comes along even if it was not looked for: without one it is no play. */
function begin(play: ChartedPlay, covered: readonly boolean[], place: number, charts: number): Draft {
  const type = placeOf('playType');
  const values = play.values.map((value, field) => (covered[field] === true || field === type ? value : null));
  return {
    orderInGame: play.orderInGame,
    offenseIsHome: play.offenseIsHome,
    values,
    seen: play.values,
    from: values.map((value) => (value === null ? -1 : place)),
    disputed: values.map(() => false),
    members: Array.from({ length: charts }, (_, chart) => (chart === place ? play.playNumber : null)),
  };
}

function override(
  under: Draft,
  play: ChartedPlay,
  covered: readonly boolean[],
  place: number,
  allFields: boolean,
): Draft {
  const says = play.values.map((value, field) => covered[field] === true && value !== null);
  return {
    orderInGame: under.orderInGame,
    offenseIsHome: allFields ? play.offenseIsHome : under.offenseIsHome,
    values: under.values.map((value, field) => (says[field] === true ? (play.values[field] ?? null) : value)),
    seen: under.seen.map((value, field) => value ?? play.values[field] ?? null),
    from: under.from.map((chart, field) => (says[field] === true ? place : chart)),
    disputed: under.disputed.map((was, field) => {
      const value = under.values[field] ?? null;
      return was || (says[field] === true && value !== null && !sameValue(value, play.values[field] ?? null));
    }),
    members: under.members.map((number, chart) => (chart === place ? play.playNumber : number)),
  };
}

/** Whether two charts say the same: the same number or code, or the same terms in the same order. */
export function sameValue(one: PlayValue, other: PlayValue): boolean {
  if (one === null || other === null || typeof one === 'number' || typeof other === 'number') return one === other;
  return one.length === other.length && one.every((term, at) => term === other[at]);
}

function inOrder(drafts: readonly Draft[]): readonly ReconciledPlay[] {
  let last = 0;
  return drafts.map(({ orderInGame, offenseIsHome, values, from, disputed, members }) => {
    last = Math.max(last + 1, orderInGame);
    const noDown = hasNoDown(values);
    return {
      orderInGame: last,
      offenseIsHome,
      values: noDown ? values.map((value, field) => (field === DOWN ? null : value)) : values,
      from: noDown ? from.map((chart, field) => (field === DOWN ? -1 : chart)) : from,
      disputed,
      members,
    };
  });
}
