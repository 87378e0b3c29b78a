import type { PlayFieldName } from '../../charting/play-fields.js';
import { earlierFeatures, type EarlierCalls } from '../features/earlier-features.js';
import type { FeatureColumn } from '../features/feature-column.js';
import { lookFeatures } from '../features/look-features.js';
import { knownCodes, situationFeatures } from '../features/situation-features.js';
import type { SnapFacts } from '../forecast-snaps.js';
import { contextKeys, downAndDistanceKeys, type ContextKeys } from '../nested/context-orders.js';
import { sideOfTarget, visibleFields, type ForecastTarget, type Sight } from '../targets.js';

/** What is known before each play, in the forms that the members of a model learn from. */
export interface ForecastInputs {
  readonly visible: ReadonlySet<PlayFieldName>;
  readonly keys: ContextKeys;
  /** Situation, look and this game's plays so far; nothing that was learned from outcomes. */
  readonly columns: readonly FeatureColumn[];
  /** Who has the ball and who has not, as categories. */
  readonly players: readonly FeatureColumn[];
}

/** Name of the column of down and distance in bands, which others are crossed with. */
export const BANDS = 'down and distance in bands';

export function forecastInputs(snaps: SnapFacts, target: ForecastTarget, sight: Sight): ForecastInputs {
  return {
    visible: visibleFields(target, sight),
    keys: contextKeys(snaps, sideOfTarget(target)),
    ...forecastColumns(snaps, target, sight),
  };
}

/**
 * The columns alone, which is all that a fitted model of them asks for.
 *
 * @param before - how far the game had come before the first of the plays
 */
export function forecastColumns(
  snaps: SnapFacts,
  target: ForecastTarget,
  sight: Sight,
  before?: EarlierCalls,
): Pick<ForecastInputs, 'columns' | 'players'> {
  const visible = visibleFields(target, sight);
  const side = sideOfTarget(target);
  return {
    columns: [
      ...situationFeatures(snaps, visible),
      ...lookFeatures(snaps, visible),
      ...earlierFeatures(snaps, before),
      { name: BANDS, kind: 'category', values: knownCodes(downAndDistanceKeys(snaps)) },
    ],
    players: [
      { name: 'player', kind: 'category', values: knownCodes(snaps[side]) },
      { name: 'other player', kind: 'category', values: knownCodes(snaps[side === 'offense' ? 'defense' : 'offense']) },
    ],
  };
}
