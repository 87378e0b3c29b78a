import { PlayColumns } from '../../charting/play-columns.js';
import { fitStepWeights, type CallArchive, type StepWeights } from './call-archive.js';
import { fitCallModel, type CallModel } from './call-model.js';

/** What is learned from an archive's calls: plain data, that can be sent from one thread to another. */
export interface FittedCalls {
  readonly weights: StepWeights;
  /** Null where the archive is too thin for one. */
  readonly model: CallModel | null;
}

/**
 * Everything about an archive that takes long: seconds for tens of thousands of plays.
 *
 * @param archive - may have come from another thread, on the way from which a batch of plays loses its methods
 */
export function fitCalls(archive: CallArchive): FittedCalls {
  const whole = { ...archive, facts: { ...archive.facts, plays: new PlayColumns(archive.facts.plays) } };
  return { weights: fitStepWeights(whole), model: fitCallModel(whole) };
}
