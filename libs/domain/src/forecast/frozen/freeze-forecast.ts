import { PlayColumns } from '../../charting/play-columns.js';
import { askOfPlays, fitCallModel, type ModelledCalls } from '../live/call-model.js';
import { additiveShares, type AdditiveShares, type CodedPart } from './additive-shares.js';

/** Calls to learn a forecast from, and what of it is to be kept. Plain data, that can be sent to another thread. */
export interface FreezingTask {
  readonly calls: ModelledCalls;
  /** Number of the player whose forecast is kept, -1 for one of whom nothing is known. */
  readonly player: number;
  readonly parts: readonly CodedPart[];
}

/** What is averaged and rounded need not be fitted to the last digit: as good on later games, in two thirds of the time. */
const TOLERANCE = 1e-4;

/** A forecast as shares to be multiplied, of the player and of somebody of whom nothing is known. */
export interface FrozenForecast {
  readonly player: AdditiveShares;
  readonly anybody: AdditiveShares;
}

/**
 * Fits the forecast of next calls to an archive's calls and writes down what it says of the player as shares of what is
 * seen, so that no model has to be kept: those that come closest to the model's own probabilities of all these plays, had
 * the player called them. What the model knows beyond the parts (yards, seconds, the calls before) is averaged over the
 * plays as they were. The same calls give the same shares.
 *
 * @param task - may have come from another thread, on the way from which a batch of plays loses its methods
 * @returns null where the archive is too thin for a model
 */
export function freezeForecast({ calls: sent, player, parts }: FreezingTask): FrozenForecast | null {
  const calls = { ...sent, facts: { ...sent.facts, plays: new PlayColumns(sent.facts.plays) } };
  const model = fitCallModel(calls, TOLERANCE);
  if (model === null) return null;
  const said = (of: number): AdditiveShares => {
    const shares = askOfPlays(model, calls.facts, calls.playerOf, of);
    return additiveShares(parts, calls.rows, shares, calls.names.length);
  };
  const anybody = said(-1);
  return { player: player < 0 ? anybody : said(player), anybody };
}
