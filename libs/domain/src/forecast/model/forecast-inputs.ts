import type { PlayFieldName } from '../../charting/play-fields.js';
import { earlierFeatures } from '../features/earlier-features.js';
import type { FeatureColumn } from '../features/feature-column.js';
import { lookFeatures } from '../features/look-features.js';
import { knownCodes, situationFeatures } from '../features/situation-features.js';
import type { SnapFacts } from '../forecast-snaps.js';
import { contextKeys, type ContextKeys } from '../nested/context-orders.js';
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
  const visible = visibleFields(target, sight);
  const keys = contextKeys(snaps, sideOfTarget(target));
  return {
    visible,
    keys,
    columns: [
      ...situationFeatures(snaps, visible),
      ...lookFeatures(snaps, visible),
      ...earlierFeatures(snaps),
      { name: BANDS, kind: 'category', values: knownCodes(keys.downAndDistance) },
    ],
    players: [
      { name: 'player', kind: 'category', values: knownCodes(keys.player) },
      { name: 'other player', kind: 'category', values: knownCodes(keys.other) },
    ],
  };
}
