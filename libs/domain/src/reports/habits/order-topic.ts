import type { DimensionName } from '../../tendencies/dimension-names.js';
import { orderDependence, type OrderDependence } from '../../tendencies/sequences/order-dependence.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { pValueWords, UNLIKELY } from '../../tendencies/words/count-words.js';
import { repeatedOrderWords } from '../../tendencies/words/sequence-words.js';
import { habitTopic, ofShare, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';

const ORDERED = {
  offense: ['called', 'callFamily', 'concept'],
  defense: ['front', 'coverage', 'pressure'],
} as const satisfies Record<Side, readonly DimensionName[]>;

/** Whether a call depends on the one before it. Nothing at all where nothing is found: most callers show none. */
export function orderTopics(source: HabitSource): HabitTopic[] {
  const { side, asked } = source;
  const found = ORDERED[side].map((dimension) => ({ dimension, order: orderDependence(asked, dimension) }));
  // Each question is one of a few; the level is shared out among them.
  const level = UNLIKELY / found.length;
  const telling = found.flatMap(({ dimension, order }) => {
    const { overall } = order;
    return overall !== null && overall.pValue < level ? [{ dimension, order, pValue: overall.pValue }] : [];
  });
  if (telling.length === 0) return [];
  return [
    habitTopic(
      source,
      'order',
      'snaps in a row of one drive, compared inside situation and game, so that down, distance and a game plan do not count',
      telling.map(({ dimension, order, pValue }) => ({
        ...ofShare(order.repeated),
        key: [dimension],
        label: `${dimension === 'called' ? 'run or pass' : dimension} as on the snap before`,
        words: orderSentence(dimension, order, pValue),
        status: 'established' as const,
      })),
      'not found',
    ),
  ];
}

function orderSentence(dimension: DimensionName, order: OrderDependence, pValue: number): string {
  return `${repeatedOrderWords(order, dimension)}; it depends on the snap before (${pValueWords(pValue)})`;
}
