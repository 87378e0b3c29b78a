import { duelTree, type DuelNode } from '../../tendencies/adjustments/duel-tree.js';
import { duelNodeWords } from '../../tendencies/words/adjustment-words.js';
import { anyOf, counted, FEWEST_FOR_PERCENT } from '../../tendencies/words/count-words.js';
import { foundNothingOn, habitTopic, ofShare, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { FEWEST_KNOWN, offTheField } from './off-the-field.js';

/** After three moves by turns hardly a path comes twice. A choice, no source. */
const DEEPEST = 3;
/** A move made less often than one time in three is not what to expect. A choice, no source. */
const USUAL = 1 / 3;

/**
 * The duel before the snap in order: this side's moves at the points that it comes to often, each with the moves that led
 * there. What the other side does is no habit of the player's, so a path ends with a move of this side's or goes untold.
 */
export function duelTopic(source: HeldSource): HabitTopic {
  const { side, asked } = source;
  const { snaps, known, root } = duelTree(asked, DEEPEST);
  if (known === 0) return habitTopic(source, 'duel', `not charted on ${anyOf(snaps, 'snap')}`, [], 'not charted');
  const own = below(root).filter(
    ({ path, share }) => path.at(-1)?.by === side && share.known >= FEWEST_KNOWN && share.count > 0,
  );
  const standing = offTheField(source, own, ({ share }) => share, 'both');
  const usual = own
    .filter(({ share: { count, known: came } }) => came >= FEWEST_FOR_PERCENT && count >= USUAL * came)
    .sort((a, b) => b.share.count - a.share.count);
  const told = [...new Set([...standing, ...usual])];
  const note = `moves in their order charted on ${known} of ${counted(snaps, 'snap')}, ${root.snapped} of them without a move`;
  return habitTopic(
    source,
    'duel',
    told.length === 0 ? `${note}; no path comes often enough to be told` : note,
    told.map((node) => ({
      ...ofShare(node.share),
      key: node.path.map(({ termId }) => `term:${termId}`),
      label: node.path.map(({ label }) => label).join(', then '),
      words: duelNodeWords(node, side, 'scout'),
      status: standing.includes(node) ? ('established' as const) : ('counted' as const),
    })),
    foundNothingOn(known),
  );
}

/** Every node under this one, a parent before its children. */
function below({ children }: DuelNode): DuelNode[] {
  return children.flatMap((child) => [child, ...below(child)]);
}
