import { elementAt } from '../statistics/element-at.js';
import type { Bracket, Source } from './bracket-shape.js';
import { isTable, matchesWhere, tableMembers } from './table-members.js';

/** What is wrong with a bracket, and where. */
export interface BracketProblem {
  readonly kind:
    | 'cycle'
    | 'entrant not placed'
    | 'entrant placed twice'
    | 'entrant unknown'
    | 'more than one winner'
    | 'outcome used twice'
    | 'pairing outside Swiss rounds'
    | 'place used twice'
    | 'place unknown'
    | 'place of a match taken'
    | 'source unknown'
    | 'table fed by matches';
  /** Place in the list of matches, or null where no one match is meant. */
  readonly match: number | null;
  readonly entrant: number | null;
  readonly words: string;
}

/**
 * Everything that keeps a bracket, wherever it came from, from being played to its end: each side of a match is fed by
 * exactly one thing that exists, nothing feeds two sides, no match waits for itself, every entrant stands in exactly one
 * place, and one match decides who wins. An empty list says that it is sound.
 */
export function bracketProblems(bracket: Bracket): BracketProblem[] {
  const problems = [...sourceProblems(bracket), ...entrantProblems(bracket), ...addressProblems(bracket)];
  // A source that does not exist cannot be followed.
  if (problems.some(({ kind }) => kind === 'source unknown' || kind === 'place unknown')) return problems;
  return [...problems, ...cycleProblems(bracket), ...winnerProblems(bracket)];
}

function sourceProblems(bracket: Bracket): BracketProblem[] {
  const { matches } = bracket;
  const problems: BracketProblem[] = [];
  const used = new Set<string>();
  const tables = new Set(matches.map(({ stage }) => stage).filter(isTable));
  const sizes = new Map([...tables].map((stage) => [stage, tableMembers(bracket, stage).length]));
  for (const [match, { stage, home, away }] of matches.entries()) {
    const add = (kind: BracketProblem['kind'], words: string): void => {
      problems.push({ kind, match, entrant: null, words });
    };
    for (const source of [home, away]) {
      const name = sourceName(source);
      if (isTable(stage) && source.from !== 'entrant' && source.from !== 'pairing') {
        add('table fed by matches', `${name} leads into a table, whose players are entered`);
      }
      switch (source.from) {
        case 'entrant':
          break;
        case 'pairing':
          if (stage !== 'swiss') add('pairing outside Swiss rounds', 'only Swiss rounds are paired as they come');
          break;
        case 'winner':
        case 'loser':
          if (matches[source.match] === undefined) add('source unknown', `there is no match for "${name}"`);
          else if (isTable(elementAt(matches, source.match).stage)) {
            add('source unknown', `"${name}": a match of a table leads to a place in it, not to a match`);
          } else if (used.has(name)) add('outcome used twice', `the ${name} is sent to two places`);
          used.add(name);
          break;
        case 'place':
          if (source.place < 1 || source.place > (sizes.get(source.stage) ?? 0)) {
            add('place unknown', `there is no ${name}`);
          } else if (used.has(name)) add('place used twice', `${name} is sent to two places`);
          used.add(name);
      }
    }
  }
  return problems;
}

function entrantProblems({ entrants, matches }: Bracket): BracketProblem[] {
  const problems: BracketProblem[] = [];
  const standsIn = Array.from({ length: entrants }, () => new Set<string>());
  const swissRounds = matches.some(({ stage, home }) => stage === 'swiss' && home.from === 'pairing');
  for (const [match, { stage, home, away }] of matches.entries()) {
    for (const [side, source] of [home, away].entries()) {
      if (source.from !== 'entrant') continue;
      const places = standsIn[source.entrant];
      if (places === undefined) {
        problems.push({
          kind: 'entrant unknown',
          match,
          entrant: source.entrant,
          words: `there is no entrant ${source.entrant + 1}`,
        });
      }
      places?.add(isTable(stage) ? stage : `${match} ${side}`);
    }
    if (home.from === 'entrant' && away.from === 'entrant' && home.entrant === away.entrant) {
      problems.push({
        kind: 'entrant placed twice',
        match,
        entrant: home.entrant,
        words: `entrant ${home.entrant + 1} would play against himself`,
      });
    }
  }
  for (const [entrant, places] of standsIn.entries()) {
    if (places.size > 1) {
      const words = `entrant ${entrant + 1} stands in more than one place`;
      problems.push({ kind: 'entrant placed twice', match: null, entrant, words });
    }
    // Swiss rounds take everybody who stands nowhere else.
    if (places.size === 0 && !swissRounds) {
      const words = `entrant ${entrant + 1} stands nowhere`;
      problems.push({ kind: 'entrant not placed', match: null, entrant, words });
    }
  }
  return problems;
}

function addressProblems({ matches }: Bracket): BracketProblem[] {
  const taken = new Set<string>();
  const problems: BracketProblem[] = [];
  for (const [match, { stage, round, position }] of matches.entries()) {
    const address = `${stage}, round ${round}, position ${position}`;
    if (taken.has(address)) {
      problems.push({ kind: 'place of a match taken', match, entrant: null, words: `two matches at ${address}` });
    }
    taken.add(address);
  }
  return problems;
}

function cycleProblems({ matches }: Bracket): BracketProblem[] {
  // Tables wait for nothing but their own matches, so nothing can go round through one.
  const waitsFor = (match: number): readonly number[] => {
    const { home, away } = elementAt(matches, match);
    return [home, away].flatMap((source) =>
      source.from === 'winner' || source.from === 'loser' ? [source.match] : [],
    );
  };
  const done = new Set<number>();
  for (const start of matches.keys()) {
    const open = new Set<number>();
    const stack = [{ match: start, entered: false }];
    for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
      const { match, entered } = top;
      if (entered) {
        open.delete(match);
        done.add(match);
        continue;
      }
      if (done.has(match)) continue;
      open.add(match);
      stack.push({ match, entered: true });
      for (const before of waitsFor(match)) {
        if (open.has(before)) {
          return [{ kind: 'cycle', match: before, entrant: null, words: 'the match waits for its own outcome' }];
        }
        if (!done.has(before)) stack.push({ match: before, entered: false });
      }
    }
  }
  return [];
}

function winnerProblems({ matches }: Bracket): BracketProblem[] {
  const usedWinners = new Set(
    matches
      .flatMap(({ home, away }) => [home, away])
      .flatMap((source) => (source.from === 'winner' ? [source.match] : [])),
  );
  const last = matchesWhere(matches, ({ stage }) => stage === 'main' || stage === 'final');
  const ends = last.filter((match) => !usedWinners.has(match));
  return ends.slice(1).map((match) => ({
    kind: 'more than one winner',
    match,
    entrant: null,
    words: 'the winner of this match goes nowhere, and of another one neither',
  }));
}

function sourceName(source: Source): string {
  switch (source.from) {
    case 'entrant':
      return `entrant ${source.entrant + 1}`;
    case 'winner':
    case 'loser':
      return `${source.from} of match ${source.match + 1}`;
    case 'place':
      return `place ${source.place} of ${source.stage}`;
    case 'pairing':
      return 'pairing';
  }
}
