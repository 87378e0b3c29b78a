import { normalCdf } from '../../statistics/distributions.js';
import { conditionalDistribution } from '../../statistics/conditional-distribution.js';
import { exactTails } from '../../statistics/exact-tails.js';
import { differenceOf, type Counted, type CountedShare } from '../../tendencies/decisions/counted-share.js';
import type { HeldSource } from './habit-claims.js';
import type { LikenessOfGames } from './likeness-of-games.js';

/** False discovery rate over all that is held against the field; as for answers before the snap. */
export const HABIT_LEVEL = 0.05;

// Filter by margins only, so that it cannot favour what stands out. Common practice, no source.
export const FEWEST_KNOWN = 5;
const FEWEST_FIELD = 30;

/**
 * Which of a topic's shares differ from the field's, all looked at together. Plays of one game share its plan: the p-value
 * is the larger one of Fisher's mid-P value and of the difference over its error, in which plays count for less the more
 * alike the games' are. What was seen in one game only is left out.
 *
 * @param directions - `more` where the values of a share add up to one, so that less of one is more of another
 * @returns the most certain first
 * @see Fisher (1935), J. R. Stat. Soc. 98, 39–82; Kish (1965), Survey Sampling, chapter 8 (design effect); Benjamini &
 *   Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function offTheField<Item>(
  source: HeldSource,
  items: readonly Item[],
  shareOf: (item: Item) => CountedShare,
  directions: 'more' | 'both',
): Item[] {
  return heldAgainstField(source, items, shareOf, directions).flatMap(({ item, stands }) => (stands ? [item] : []));
}

/** The same with those that do not stand, the nearest to it first, so that a thin report can name them as such. */
export function heldAgainstField<Item>(
  { games, standing }: HeldSource,
  items: readonly Item[],
  shareOf: (item: Item) => CountedShare,
  directions: 'more' | 'both',
): { readonly item: Item; readonly stands: boolean }[] {
  const tested = items.flatMap((item) => {
    const { count, known, field } = shareOf(item);
    if (known < FEWEST_KNOWN || field === null || field.known < FEWEST_FIELD) return [];
    const byChance = conditionalDistribution([
      [count, known - count],
      [field.count, field.known - field.count],
    ]);
    const { midP } = exactTails(byChance, count);
    const ofPlays = directions === 'more' ? midP.greater : midP.twoSided;
    const z = differenceOverError({ count, known }, field, games);
    const ofGames = directions === 'more' ? normalCdf(-z) : 2 * normalCdf(-Math.abs(z));
    return [{ item, pValue: Math.max(ofPlays, ofGames) }];
  });
  const stands = standing(tested.map(({ pValue }) => pValue));
  return tested
    .map(({ item, pValue }, place) => ({ item, pValue, stands: stands[place] === true }))
    .filter(({ item }) => !isOneGame(shareOf(item)))
    .sort((a, b) => a.pValue - b.pValue);
}

/** Of a share less the field's, plays spread evenly over the games. */
function differenceOverError(own: Counted, field: Counted, games: LikenessOfGames | null): number {
  const pooled = (own.count + field.count) / (own.known + field.known);
  const worth = (known: number, among: number): number =>
    known / (1 + (games?.likeness ?? 0) * Math.max(0, known / Math.max(1, among) - 1));
  const error = Math.sqrt(
    pooled * (1 - pooled) * (1 / worth(own.known, games?.games ?? 1) + 1 / worth(field.known, games?.fieldGames ?? 1)),
  );
  return error === 0 ? 0 : (own.count / own.known - field.count / field.known) / error;
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
