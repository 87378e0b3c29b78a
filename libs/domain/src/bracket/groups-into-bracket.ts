import { elementAt } from '../statistics/element-at.js';
import { assertCount } from '../statistics/guards.js';
import type { Bracket, Source, Stage } from './bracket-shape.js';
import { everybodyMeets } from './round-robin.js';
import { eliminationDrafts, MOST_ENTRANTS, type SingleElimination } from './single-elimination.js';
import { placesFor, seedingOrder } from './seeding-order.js';
import { withoutByes } from './without-byes.js';

export interface GroupsIntoBracket extends SingleElimination {
  readonly groups: number;
  /** How many of each group go on. */
  readonly advance: number;
  /** Games of a match in a group. */
  readonly groupBestOf?: number;
}

/**
 * Groups in which everybody meets everybody, then single elimination over the first places of each. Entrants are dealt to
 * the groups in a snake by seed; in the bracket all first places are seeded before all second ones, each tier turned so
 * that as few as can be meet somebody of their own group in the first round (common practice, no source).
 *
 * @param entrants - at least 2 a group, and at least `advance`
 * @throws DomainError `stats.invalid_count`
 */
export function groupsIntoBracket(entrants: number, options: GroupsIntoBracket): Bracket {
  const { groups, advance, groupBestOf = 1 } = options;
  assertCount('entrants', entrants, { min: 2, max: MOST_ENTRANTS });
  assertCount('groups', groups, { min: 1, max: Math.floor(entrants / 2) });
  assertCount('advance', advance, { min: 1, max: Math.floor(entrants / groups) });
  assertCount('places in the bracket', groups * advance, { min: 2 });
  const members = Array.from({ length: groups }, (): number[] => []);
  for (let entrant = 0; entrant < entrants; entrant += 1) {
    const [row, column] = [Math.floor(entrant / groups), entrant % groups];
    elementAt(members, row % 2 === 0 ? column : groups - 1 - column).push(entrant);
  }
  const played = members.flatMap((group, at) => everybodyMeets(group, stageOf(at), groupBestOf));
  // What the drafts call match 0 stands after all matches of the groups.
  const bracket = withoutByes(eliminationDrafts(bracketEntries(groups, advance), options)).map((match) => ({
    ...match,
    home: shifted(match.home, played.length),
    away: shifted(match.away, played.length),
  }));
  return { entrants, matches: [...played, ...bracket] };
}

function stageOf(group: number): Stage {
  return `group ${group + 1}`;
}

function shifted(source: Source, by: number): Source {
  return source.from === 'winner' || source.from === 'loser' ? { ...source, match: source.match + by } : source;
}

function bracketEntries(groups: number, advance: number): Source[] {
  let entries: { readonly group: number; readonly place: number }[] = [];
  for (let place = 1; place <= advance; place += 1) {
    const turns = Array.from({ length: groups }, (_, turn) => [
      ...entries,
      ...Array.from({ length: groups }, (_unused, at) => ({ group: (at + turn) % groups, place })),
    ]);
    const clashes = turns.map((turn) => ownGroupMeetings(turn, groups * advance));
    entries = elementAt(turns, clashes.indexOf(Math.min(...clashes)));
  }
  return entries.map(({ group, place }) => ({ from: 'place', stage: stageOf(group), place }));
}

function ownGroupMeetings(entries: readonly { readonly group: number }[], entrants: number): number {
  const groups = seedingOrder(placesFor(entrants)).map((seed) => entries[seed - 1]?.group ?? null);
  return groups.filter((group, at) => at % 2 === 0 && group !== null && group === groups[at + 1]).length;
}
