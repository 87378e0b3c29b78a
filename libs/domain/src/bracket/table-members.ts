import { elementAt } from '../statistics/element-at.js';
import type { Bracket, BracketMatch, Stage } from './bracket-shape.js';

/** Places in the list of the matches for which this holds. */
export function matchesWhere(matches: readonly BracketMatch[], is: (match: BracketMatch) => boolean): number[] {
  return [...matches.keys()].filter((match) => is(elementAt(matches, match)));
}

/** Whether a stage is decided by a table of all its matches. */
export function isTable(stage: Stage): boolean {
  return stage === 'swiss' || stage.startsWith('group ');
}

/** Who is in a table: those entered in its matches; in Swiss rounds that are paired as they come, all who are not elsewhere. */
export function tableMembers({ entrants, matches }: Bracket, stage: Stage): number[] {
  const own = matchesWhere(matches, (match) => match.stage === stage);
  if (!own.some((match) => elementAt(matches, match).home.from === 'pairing')) return enteredIn(matches, own);
  const elsewhere = new Set(
    enteredIn(
      matches,
      matchesWhere(matches, (match) => match.stage !== stage),
    ),
  );
  return [...Array(entrants).keys()].filter((entrant) => !elsewhere.has(entrant));
}

function enteredIn(matches: readonly BracketMatch[], members: readonly number[]): number[] {
  const entrants = members.flatMap((match) => {
    const { home, away } = elementAt(matches, match);
    return [home, away].flatMap((source) => (source.from === 'entrant' ? [source.entrant] : []));
  });
  return [...new Set(entrants)].sort((one, two) => one - two);
}
