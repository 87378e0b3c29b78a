import type { Vocabulary } from '../charting/vocabulary.js';
import { DIMENSION_NAMES } from '../tendencies/dimension-names.js';
import { readDimension } from '../tendencies/dimensions.js';
import type { FieldModel } from '../tendencies/field-model.js';
import type { Prior } from '../tendencies/prior.js';
import { situationPlays } from '../tendencies/situation-plays.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import type { QueueCell } from './charting-queue-shape.js';

export interface CellsQuestion {
  /** By the caller's number. */
  readonly player: number;
  /** Probability of meeting the player, in [0, 1]. */
  readonly meeting: number;
  /** The player's own plays on the model's side of the ball; may be none. */
  readonly facts: TendencyPlays;
  readonly fieldModel: FieldModel;
  readonly vocabulary: Vocabulary;
}

/** A cell with how many plays it rests on. */
export interface KnownCell extends QueueCell {
  readonly known: number;
}

/**
 * What a report on a player would not know yet, by situation and dimension: the posterior variance of the shares around
 * the field's, and what the prior and the plays weigh. Where the field itself knows a dimension on no play of a situation
 * there is nothing to be drawn towards, and no cell.
 *
 * @see Dirichlet-multinomial: variance of a share p is p (1 - p) / (A + n + 1)
 */
export function queueCells({ player, meeting, facts, fieldModel, vocabulary }: CellsQuestion): KnownCell[] {
  const { side } = fieldModel;
  const own = situationPlays(facts);
  return DIMENSION_NAMES[side].flatMap((dimension) => {
    const { codes, values } = readDimension(dimension, facts, vocabulary);
    const field = fieldModel.codes(dimension).values;
    return facts.situationNames.flatMap((name, situation): KnownCell[] => {
      const { tallies } = fieldModel.cell(dimension, name);
      const prior = fieldModel.prior(dimension, name);
      if (prior === null || tallies.known === 0) return [];
      const counts = new Map<string, number>();
      let known = 0;
      for (const play of own.get(name) ?? []) {
        const value = values[codes[play] ?? -1];
        if (value === undefined) continue;
        known += 1;
        counts.set(value.key, (counts.get(value.key) ?? 0) + 1);
      }
      const concentration = singleConcentration(prior);
      const weight = concentration + known;
      let squares = 0;
      for (const [code, { key }] of field.entries()) {
        const mean = (tallies.counts[code] ?? 0) / tallies.known;
        squares += ((concentration * mean + (counts.get(key) ?? 0)) / weight) ** 2;
      }
      const variance = Math.max(0, 1 - squares) / (weight + 1);
      return [{ player, side, situation, dimension, variance, weight, meeting, known }];
    });
  });
}

/** The one concentration with the variance of the two-part prior. */
function singleConcentration({ weight, tight, loose }: Prior): number {
  return 1 / (weight / (loose + 1) + (1 - weight) / (tight + 1)) - 1;
}
