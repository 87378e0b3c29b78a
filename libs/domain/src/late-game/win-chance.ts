import { assertUnit } from '../statistics/guards.js';

/** How a drive ends, as shares; what is left of 1 ends without points. */
export interface DriveOutcomes {
  readonly touchdown: number;
  readonly fieldGoal: number;
}

/** Chances of a try after a touchdown. */
export interface TryChances {
  readonly twoPoint: number;
  readonly kick: number;
}

/** One side of the game. */
export interface Scorer {
  readonly drive: DriveOutcomes;
  readonly tries: TryChances;
}

const [TOUCHDOWN, FIELD_GOAL] = [6, 3];
/** A tie goes to overtime, which either wins as often. Common practice, no source. */
const OVERTIME = 0.5;
/** More drives than this are never left of a game that is decided by tries. */
const MOST_DRIVES = 40;

/**
 * Our chance to win with so many drives left of both sides, which have the ball by turns. After each touchdown the scorer
 * takes the try that is better for it then, so that what a point is worth follows from the score and from the drives left.
 *
 * A number of drives between two whole ones is taken between their chances; after the last one a lead wins.
 *
 * @see Sackrowitz (2000), Chance 13(3), 29-34 (tries by a dynamic programme over the possessions that are left), from
 *   memory; that drives are alike and go by turns is its assumption too
 */
export class WinChance {
  private readonly known = new Map<string, number>();

  /** @throws DomainError `stats.invalid_probability` for a chance outside [0, 1], or outcomes that add up to more than 1 */
  constructor(
    private readonly us: Scorer,
    private readonly them: Scorer,
  ) {
    for (const { drive, tries } of [us, them]) {
      for (const chance of [drive.touchdown, drive.fieldGoal, tries.twoPoint, tries.kick]) assertUnit('chance', chance);
      assertUnit('drive', drive.touchdown + drive.fieldGoal);
    }
  }

  /**
   * @param drives - left of both, the next one counted, at least 0; more than forty count as forty
   * @param lead   - ours less theirs, in points
   * @param ball   - who has the next drive
   * @param next   - of that drive alone, where it begins from another place than usual
   */
  of(drives: number, lead: number, ball: 'us' | 'them', next?: DriveOutcomes): number {
    const within = Math.min(MOST_DRIVES, Math.max(0, drives));
    const [whole, part] = [Math.floor(within), within - Math.floor(within)];
    const low = this.whole(whole, lead, ball, next);
    return part === 0 ? low : (1 - part) * low + part * this.whole(whole + 1, lead, ball, next);
  }

  /**
   * After a touchdown, before the try that is named.
   *
   * @param drives - left of both after the try, as in `of`; the next one is the other side's
   * @param lead   - ours less theirs, the touchdown's six points counted
   * @param scorer - who takes the try
   * @param points - what the try is worth: kicked or played
   */
  afterTry(drives: number, lead: number, scorer: 'us' | 'them', points: 1 | 2): number {
    const { twoPoint, kick } = (scorer === 'us' ? this.us : this.them).tries;
    const chance = points === 2 ? twoPoint : kick;
    const [sign, other] = scorer === 'us' ? ([1, 'them'] as const) : ([-1, 'us'] as const);
    return chance * this.of(drives, lead + sign * points, other) + (1 - chance) * this.of(drives, lead, other);
  }

  private whole(drives: number, lead: number, ball: 'us' | 'them', next?: DriveOutcomes): number {
    if (drives === 0) return lead > 0 ? 1 : lead < 0 ? 0 : OVERTIME;
    if (next !== undefined) return this.step(drives, lead, ball, next);
    const key = `${drives} ${lead} ${ball}`;
    const kept = this.known.get(key);
    if (kept !== undefined) return kept;
    const chance = this.step(drives, lead, ball, (ball === 'us' ? this.us : this.them).drive);
    this.known.set(key, chance);
    return chance;
  }

  private step(drives: number, lead: number, ball: 'us' | 'them', { touchdown, fieldGoal }: DriveOutcomes): number {
    const [sign, other, best] = ball === 'us' ? ([1, 'them', Math.max] as const) : ([-1, 'us', Math.min] as const);
    const left = drives - 1;
    const scored = best(
      this.afterTry(left, lead + sign * TOUCHDOWN, ball, 1),
      this.afterTry(left, lead + sign * TOUCHDOWN, ball, 2),
    );
    return (
      touchdown * scored +
      fieldGoal * this.of(left, lead + sign * FIELD_GOAL, other) +
      (1 - touchdown - fieldGoal) * this.of(left, lead, other)
    );
  }
}

/** Chances nearer than this are as good as equal: less than the error of any of the inputs. Common practice, no source. */
export const AS_GOOD_AS_EQUAL = 0.005;
