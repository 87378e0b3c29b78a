import { AS_GOOD_AS_EQUAL, type DriveOutcomes, type WinChance } from './win-chance.js';

/** Two ways to go on, by our chance to win. */
export interface Comparison<Choice extends string> {
  readonly chances: Readonly<Record<Choice, number>>;
  /** Null where they are as good as equal. */
  readonly best: Choice | null;
}

/**
 * Kick or go for two after a touchdown of ours.
 *
 * @param lead   - ours less theirs, the six points counted
 * @param drives - left of both after the try; theirs is next
 * @see WinChance
 */
export function twoPointAdvice(chance: WinChance, lead: number, drives: number): Comparison<'kick' | 'two'> {
  return compared({
    kick: chance.afterTry(drives, lead, 'us', 1),
    two: chance.afterTry(drives, lead, 'us', 2),
  });
}

export interface OnsideChances {
  /** That we recover it. */
  readonly recovered: number;
  /** Of our drive after we did, and of theirs after we did not: both begin near midfield. */
  readonly ours: DriveOutcomes;
  readonly theirs: DriveOutcomes;
}

/**
 * Kick deep or onside.
 *
 * @param lead   - ours less theirs, before the kick
 * @param drives - left of both after the kick; the next one is theirs unless we recover
 * @see WinChance; the kick as a gamble on who has the next drive: common practice, no source
 */
export function onsideAdvice(
  chance: WinChance,
  lead: number,
  drives: number,
  { recovered, ours, theirs }: OnsideChances,
): Comparison<'deep' | 'onside'> {
  return compared({
    deep: chance.of(drives, lead, 'them'),
    onside: recovered * chance.of(drives, lead, 'us', ours) + (1 - recovered) * chance.of(drives, lead, 'them', theirs),
  });
}

/** What a drive from midfield is worth beside a usual one. Common practice, no source. */
const FROM_MIDFIELD = 1.4;

/** A usual drive's outcomes, from near midfield. */
export function fromMidfield({ touchdown, fieldGoal }: DriveOutcomes): DriveOutcomes {
  const most = FROM_MIDFIELD * (touchdown + fieldGoal);
  const by = most > 1 ? FROM_MIDFIELD / most : FROM_MIDFIELD;
  return { touchdown: by * touchdown, fieldGoal: by * fieldGoal };
}

function compared<Choice extends string>(chances: Record<Choice, number>): Comparison<Choice> {
  // Exactly the keys of the record.
  const ordered = (Object.keys(chances) as Choice[]).sort((one, other) => chances[other] - chances[one]);
  const [first, second] = ordered;
  if (first === undefined || second === undefined) throw new RangeError('two choices are compared');
  return { chances, best: chances[first] - chances[second] < AS_GOOD_AS_EQUAL ? null : first };
}
