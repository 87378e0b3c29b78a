import type { RandomSource } from '../../statistics/seeded-random.js';

// Test support: calls that hang on several things at once, for leagues that no sum of effects describes. Round numbers of
// nobody's play: what is common knowledge is only which things go together (late clock, score and timeouts; when a fourth
// down is gone for; people, formation and down).

export interface Habits {
  /** What each pair of formation and people gives away of a pass, by early, third-and-short and long downs. */
  readonly pairs: readonly (readonly number[])[];
  /** How common each pair is, log odds. */
  readonly common: readonly number[];
  readonly goalLine: number;
  readonly fourthDownRange: number;
  readonly twoMinutes: number;
  readonly secondLong: number;
  /** Share of formations that are left blank beyond those of everybody. */
  readonly blank: number;
}

export function drawHabits(pairs: number, normal: () => number, random: RandomSource): Habits {
  const everybody = (place: number): number => 0.9 * Math.sin(place * 2.4);
  return {
    pairs: [0, 1, 2].map((downs) =>
      Array.from(
        { length: pairs },
        (_, place) => everybody(place + downs * 11) + (random() < 0.35 ? -1 : 1) * 0.8 * Math.abs(normal()),
      ),
    ),
    common: Array.from({ length: pairs }, (_, place) => 0.8 * Math.cos(place * 1.7) + 0.5 * normal()),
    goalLine: 0.7 * normal(),
    fourthDownRange: 0.5 * normal(),
    twoMinutes: 0.5 * normal(),
    secondLong: 0.5 * normal(),
    blank: random() < 0.3 ? 0.3 + 0.4 * random() : 0,
  };
}

interface Facts {
  readonly quarter: number;
  readonly clock: number;
  readonly down: number;
  readonly distance: number;
  readonly spot: number;
  readonly lead: number;
  readonly left: number;
  readonly timeouts: number;
}

/** Log odds of a pass beyond the sum of what each thing does by itself. */
export function interaction(facts: Facts, habits: Habits): number {
  const { quarter, clock, down, distance, spot, lead, left, timeouts } = facts;
  let logit = 0;
  // Two minutes before the half: without timeouts nobody runs, with three and far from the goal few hurry.
  if (quarter === 2 && clock < 120)
    logit += spot > 70 ? -1.2 + 0.3 * (3 - timeouts) : timeouts === 0 ? 1.6 : 0.3 + habits.twoMinutes;
  if (left < 420 && lead > 0) logit -= lead <= 8 ? (timeouts > 1 ? 0.3 : 1.2) : 0.8;
  if (left < 420 && lead < 0 && lead >= -3) logit -= spot < 30 ? 1.3 : 0;
  // Where a fourth down will be gone for, a third down of middle length is played as if there were two more.
  if (down === 3 && distance >= 3 && distance <= 6 && spot >= 35 && spot <= 55) logit -= 1.1 + habits.fourthDownRange;
  if (down === 2 && distance >= 8 && spot > 40 && spot <= 65) logit += 0.8 + habits.secondLong;
  if (spot <= 5 && distance >= spot) logit += down === 3 ? 1.2 : -0.9 + habits.goalLine;
  if (down === 1 && spot > 10 && spot <= 20 && lead < 0) logit += 0.9;
  return logit;
}

/** Formation and people as one cell, drawn by the call, and the log likelihood ratio of a pass that the cell holds. */
export function jointLook(
  { pairs, common }: Habits,
  { down, distance }: { readonly down: number; readonly distance: number },
  isPass: boolean,
  random: RandomSource,
): { readonly cell: number; readonly evidence: number } {
  const signs = pairs[down <= 2 ? 0 : distance <= 3 ? 1 : 2] ?? [];
  const [onRun, onPass] = [-0.5, 0.5].map((call) => {
    const odds = signs.map((sign, place) => Math.exp((common[place] ?? 0) + call * sign));
    const total = odds.reduce((sum, value) => sum + value, 0);
    return odds.map((value) => value / total);
  });
  const shares = (isPass ? onPass : onRun) ?? [];
  let rest = random();
  let cell = 0;
  while (cell + 1 < shares.length && (rest -= shares[cell] ?? 0) >= 0) cell += 1;
  return { cell, evidence: Math.log((onPass?.[cell] ?? 1) / (onRun?.[cell] ?? 1)) };
}

/** Looks are charted the worse the later the down, and by some hardly at all: not blank at random. */
export function unevenBlank(name: string, habits: Habits | null, down: number): number {
  if (habits === null || (name !== 'formation' && name !== 'motion')) return 0;
  return habits.blank * (down >= 3 ? 1 : 0.6) + (down === 2 ? 0.05 : 0);
}
