import type { ForecastSnaps } from '../forecast-snaps.js';
import type { ForecastTarget, Sight } from '../targets.js';

/** What is to be forecast, from what. */
export interface ForecastTask {
  readonly snaps: ForecastSnaps;
  readonly target: ForecastTarget;
  readonly sight: Sight;
  /** Ascending places of the plays with a known outcome. */
  readonly rows: Int32Array;
  /** One a play of the batch: its class, 0 to classes - 1; read at `rows` only. */
  readonly outcome: Int32Array;
  readonly classes: number;
}

/** Told of what is being done, for whoever waits. */
export type Progress = (what: string) => void;
