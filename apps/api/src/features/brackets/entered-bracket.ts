import { uuidv7 } from 'uuidv7';
import type { Bracket, Source, Stage } from '#domain/bracket/bracket-shape.js';
import { doubleElimination } from '#domain/bracket/double-elimination.js';
import { groupsIntoBracket } from '#domain/bracket/groups-into-bracket.js';
import { roundRobin } from '#domain/bracket/round-robin.js';
import { singleElimination } from '#domain/bracket/single-elimination.js';
import { swiss } from '#domain/bracket/swiss.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import type { BracketInput, EnteredMatch, Structure } from './brackets.dto.js';
import type { BracketEntrant, LinkedMatch, StoredSource } from './brackets.repository.js';
import { addressOf } from './event-bracket.js';

/** The matches of a structure over these entrants, the best seed first. */
export function builtMatches(
  structure: Structure,
  input: BracketInput,
  entrants: readonly BracketEntrant[],
): LinkedMatch[] {
  const { matches } = built(structure, input, entrants.length);
  const stored = (source: Source): StoredSource | null => {
    switch (source.from) {
      case 'entrant':
        return null;
      case 'winner':
      case 'loser': {
        const match = matches[source.match];
        if (match === undefined) throw new Error('a bracket names its own matches');
        return { from: source.from, stage: match.stage, round: match.round, position: match.position };
      }
      default:
        return source;
    }
  };
  const entered = (source: Source): string | null =>
    source.from === 'entrant' ? (entrants[source.entrant]?.id ?? null) : null;
  return matches.map(({ stage, round, position, bestOf, home, away, decider = false }) => ({
    ...newMatch({ stage, round, position, bestOf, decider }),
    homeEntrantId: entered(home),
    awayEntrantId: entered(away),
    homeSource: stored(home),
    awaySource: stored(away),
  }));
}

function built(structure: Structure, input: BracketInput, entrants: number): Bracket {
  const games = input.bestOf ?? 1;
  const bestOf = (round: number, rounds: number): number => (round === rounds ? (input.finalBestOf ?? games) : games);
  const thirdPlace = input.thirdPlace ?? false;
  switch (structure) {
    case 'single elimination':
      return singleElimination(entrants, { thirdPlace, bestOf });
    case 'double elimination':
      return doubleElimination(entrants, { secondFinal: input.secondFinal ?? true, bestOf });
    case 'swiss':
      return swiss(entrants, input.rounds ?? Math.max(1, Math.ceil(Math.log2(entrants))), games);
    case 'round robin':
      return roundRobin(entrants, games);
    case 'groups into a bracket': {
      const groups = input.groups ?? Math.max(1, Math.round(entrants / 4));
      return groupsIntoBracket(entrants, {
        groups,
        advance: input.advance ?? 2,
        thirdPlace,
        bestOf,
        groupBestOf: games,
      });
    }
  }
}

/**
 * Matches that say where their winner and loser go, turned to say where their players come from.
 *
 * @throws ApiError `bracket.invalid` for a side that two things lead to, and for a way that leads nowhere
 */
export function enteredMatches(matches: readonly EnteredMatch[]): LinkedMatch[] {
  const errors: FieldProblem[] = [];
  const addresses = new Set(matches.map((match) => addressOf({ ...match, stage: match.stage as Stage })));
  const sources = new Map<string, StoredSource>();
  for (const match of matches) {
    const from = { stage: match.stage as Stage, round: match.round, position: match.position };
    for (const [outcome, to] of [
      ['winner', match.winnerTo],
      ['loser', match.loserTo],
    ] as const) {
      if (to === undefined || to === null) continue;
      const address = addressOf({ ...to, stage: to.stage as Stage });
      const side = `${address}, ${to.side}`;
      const field = `${addressOf(from)}: ${outcome}To`;
      if (!addresses.has(address)) errors.push({ field, found: address, expected: 'a match of the bracket' });
      else if (sources.has(side)) errors.push({ field, found: side, expected: 'a side that nothing else leads to' });
      else sources.set(side, { from: outcome, ...from });
    }
  }
  const linked = matches.map((match): LinkedMatch => {
    const address = { stage: match.stage as Stage, round: match.round, position: match.position };
    const side = (name: 'home' | 'away', entrantId: string | null): StoredSource | null => {
      const source = sources.get(`${addressOf(address)}, ${name}`) ?? null;
      if (source !== null && entrantId !== null) {
        const expected = 'an entrant or a match that leads there, not both';
        errors.push({ field: `${addressOf(address)}: ${name}EntrantId`, found: entrantId, expected });
      }
      return source;
    };
    const [homeEntrantId, awayEntrantId] = [match.homeEntrantId ?? null, match.awayEntrantId ?? null];
    return {
      ...newMatch({ ...address, bestOf: match.bestOf ?? 1, decider: match.decider ?? false }),
      homeEntrantId,
      awayEntrantId,
      homeSource: side('home', homeEntrantId),
      awaySource: side('away', awayEntrantId),
    };
  });
  if (errors.length > 0) throw new ApiError('bracket.invalid', 'some ways through the bracket do not fit', { errors });
  return linked;
}

function newMatch(
  match: Pick<LinkedMatch, 'stage' | 'round' | 'position' | 'bestOf' | 'decider'>,
): Omit<LinkedMatch, 'homeEntrantId' | 'awayEntrantId' | 'homeSource' | 'awaySource'> {
  return { ...match, id: uuidv7(), winnerEntrantId: null, homeWins: null, awayWins: null, status: 'open' };
}
