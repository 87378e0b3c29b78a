import { assertCount, assertShares } from '../statistics/guards.js';
import type { RandomSource } from '../statistics/seeded-random.js';
import { shuffled } from '../statistics/shuffle.js';

/**
 * A mix as an order to be followed: people who try to be random repeat too seldom, so the sheet does it for them. Each
 * call comes up as often as its share of the turns says, remainders to the largest, in an order drawn at random.
 *
 * @param shares - one a call, adding up to 1
 * @param turns  - integer ≥ 1
 * @returns places of calls, one a turn
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_count`
 * @see Wagenaar (1972), Psychol. Bull. 77, 65–72 (people make poor random sequences); largest remainders after Hamilton
 */
export function mixedOrder(shares: readonly number[], turns: number, random: RandomSource): number[] {
  assertShares('shares', shares);
  assertCount('turns', turns, { min: 1 });
  const whole = shares.map((share) => Math.floor(share * turns));
  const left = turns - whole.reduce((sum, count) => sum + count, 0);
  const byRemainder = [...shares.keys()].sort(
    (one, other) => remainder(shares[other], turns) - remainder(shares[one], turns) || one - other,
  );
  for (const call of byRemainder.slice(0, left)) whole[call] = (whole[call] ?? 0) + 1;
  return shuffled(
    random,
    whole.flatMap((count, call) => new Array<number>(count).fill(call)),
  );
}

function remainder(share: number | undefined, turns: number): number {
  const exact = (share ?? 0) * turns;
  return exact - Math.floor(exact);
}
