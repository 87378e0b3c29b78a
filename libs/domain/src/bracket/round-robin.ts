import { elementAt } from '../statistics/element-at.js';
import { assertCount } from '../statistics/guards.js';
import type { Bracket, BracketMatch, Stage } from './bracket-shape.js';

/** Of a table in which everybody meets everybody: 32,640 matches. */
const MOST_IN_A_TABLE = 256;

/**
 * Everybody against everybody, in rounds in which nobody plays twice; with an odd number one rests each round.
 *
 * @param entrants - how many, 2 to 256
 * @returns n (n - 1) / 2 matches of the stage "group 1"
 * @throws DomainError `stats.invalid_count`
 * @see the circle method: Kirkman (1847), Camb. Dublin Math. J. 2, 191–204 (from memory)
 */
export function roundRobin(entrants: number, bestOf = 1): Bracket {
  assertCount('entrants', entrants, { min: 2, max: MOST_IN_A_TABLE });
  return { entrants, matches: everybodyMeets([...Array(entrants).keys()], 'group 1', bestOf) };
}

/** The matches of one table. */
export function everybodyMeets(entrants: readonly number[], stage: Stage, bestOf: number): BracketMatch[] {
  const circle: (number | null)[] = entrants.length % 2 === 0 ? [...entrants] : [...entrants, null];
  const size = circle.length;
  const matches: BracketMatch[] = [];
  for (let round = 1; round < size; round += 1) {
    let position = 1;
    for (let at = 0; at < size / 2; at += 1) {
      const [one, other] = [elementAt(circle, at), elementAt(circle, size - 1 - at)];
      if (one === null || other === null) continue;
      // Home and away by turns for the one who stands still.
      const [home, away] = at === 0 && round % 2 === 0 ? [other, one] : [one, other];
      const sides = { home: { from: 'entrant', entrant: home }, away: { from: 'entrant', entrant: away } } as const;
      matches.push({ stage, round, position, bestOf, ...sides });
      position += 1;
    }
    const last = circle.pop() ?? null;
    circle.splice(1, 0, last);
  }
  return matches;
}
