import { assertCount } from '../statistics/guards.js';
import type { Bracket } from './bracket-shape.js';

/**
 * Swiss rounds: in each, players of equal standing meet. Who plays is decided when the round before is over (`swissPairs`).
 *
 * @param entrants - how many, 2 to 1,024
 * @param rounds   - fixed beforehand; at most as many as there are opponents
 * @returns floor(entrants / 2) matches a round
 * @throws DomainError `stats.invalid_count`
 * @see FIDE Handbook C.04.1
 */
export function swiss(entrants: number, rounds: number, bestOf = 1): Bracket {
  assertCount('entrants', entrants, { min: 2, max: 1024 });
  assertCount('rounds', rounds, { min: 1, max: entrants - 1 });
  const pairing = { from: 'pairing' } as const;
  const matches = Array.from({ length: rounds }, (_, round) =>
    Array.from({ length: Math.floor(entrants / 2) }, (_unused, position) => ({
      stage: 'swiss' as const,
      round: round + 1,
      position: position + 1,
      bestOf,
      home: pairing,
      away: pairing,
    })),
  ).flat();
  return { entrants, matches };
}
