import { benjaminiHochberg } from '../../statistics/benjamini-hochberg.js';
import { conditionalDistribution } from '../../statistics/conditional-distribution.js';
import { exactTails } from '../../statistics/exact-tails.js';
import { differenceOf, type Counted, type CountedShare } from '../../tendencies/decisions/counted-share.js';

/** False discovery rate over the shares of one topic; as for answers before the snap. */
export const HABIT_LEVEL = 0.05;

// Filter by margins only, so that it cannot favour what stands out. Common practice, no source.
export const FEWEST_KNOWN = 5;
const FEWEST_FIELD = 30;

/**
 * Which of a topic's shares differ from the field's, all looked at together. Plays of one game share its plan, which the
 * test does not know: what was seen in one game only is left out.
 *
 * @param directions - `more` where the values of a share add up to one, so that less of one is more of another
 * @returns the most certain first
 * @see Fisher (1935), J. R. Stat. Soc. 98, 39–82; Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function offTheField<Item>(
  items: readonly Item[],
  shareOf: (item: Item) => CountedShare,
  directions: 'more' | 'both',
): Item[] {
  const tested = items.flatMap((item) => {
    const { count, known, field } = shareOf(item);
    if (known < FEWEST_KNOWN || field === null || field.known < FEWEST_FIELD) return [];
    const byChance = conditionalDistribution([
      [count, known - count],
      [field.count, field.known - field.count],
    ]);
    const { midP } = exactTails(byChance, count);
    return [{ item, pValue: directions === 'more' ? midP.greater : midP.twoSided }];
  });
  const { rejected } = benjaminiHochberg(
    tested.map(({ pValue }) => pValue),
    HABIT_LEVEL,
  );
  return tested
    .filter(({ item }, place) => rejected[place] === true && !isOneGame(shareOf(item)))
    .sort((a, b) => a.pValue - b.pValue)
    .map(({ item }) => item);
}

/**
 * Whether a part differs from the player's other plays, so that it does not merely repeat what is so of all.
 *
 * @see Newcombe (1998), Stat. Med. 17, 873–890, method 10
 */
export function isApart(part: Counted, rest: Counted, confidence: number): boolean {
  const difference = differenceOf(part, rest, confidence);
  return difference !== null && (difference.lower > 0 || difference.upper < 0);
}

/** All of something without a part of it. */
export function without(all: Counted, part: Counted): Counted {
  return { count: all.count - part.count, known: all.known - part.known };
}

function isOneGame({ count, known, field, evidence }: CountedShare): boolean {
  // Less often than the field is seen in the plays that are not there.
  if (field !== null && count / known < field.share) return false;
  return new Set(evidence.references().map(({ chartIndex }) => chartIndex)).size < 2;
}
