import type { Vocabulary } from '../../charting/vocabulary.js';
import { benjaminiHochberg } from '../../statistics/benjamini-hochberg.js';
import { elementAt } from '../../statistics/element-at.js';
import { assertOpenUnit } from '../../statistics/guards.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import { readCues } from './cues.js';
import { describeCall } from './describe-call.js';
import { levelsOf } from './levels.js';
import { searchFamilies, testCall, type LeveledDimension } from './search.js';
import { strataOf } from './strata.js';
import type { CueAndCall } from './tell-shape.js';
import { FEWEST_CUE_PLAYS } from './tells.js';

export interface GiveawaysInput {
  /** Plays of everybody. */
  readonly facts: TendencyPlays;
  /** Whose call it is. */
  readonly side: Side;
  /** Of each play the number of the player of that side, -1 unknown. */
  readonly playerOf: Int32Array;
  readonly vocabulary: Vocabulary;
  /** One a play: 0 the call, 1 another one, -1 not known. */
  readonly codes: Int16Array;
  /** The call in words. */
  readonly label: string;
  /** Cues that are part of the call as it was asked for, and tell it by definition. */
  readonly partsOfCall: readonly string[];
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
  /** False discovery rate in (0, 1). */
  readonly level: number;
}

/** A look from which a call comes more often, whoever plays it; `games` counts the two players of a game apart. */
export interface Giveaway extends Omit<CueAndCall, 'dimension'> {
  /** The smallest level at which this would have been found. */
  readonly adjustedPValue: number;
}

export interface Giveaways {
  /** Looks that were put to the test. */
  readonly tested: number;
  /** Discoveries only, the largest difference first; none is a usual answer. */
  readonly found: readonly Giveaway[];
}

/**
 * What gives one call away in everybody's hands: every value of every single cue against the call. Compared within one
 * situation of one player's side of one game, and plays that are alone there within one player's situation, so that neither
 * the situation nor who likes both makes a giveaway; found by
 * Benjamini and Hochberg's rule over all looks. Looks from which the call comes less often are not told.
 *
 * @throws DomainError `stats.invalid_probability` for confidence or level; `vocabulary.unknown_code`
 * @see tells; Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function giveaways(input: GiveawaysInput): Giveaways {
  const { facts, side, playerOf, vocabulary, codes, label, confidence, level } = input;
  assertOpenUnit('confidence', confidence);
  assertOpenUnit('level', level);
  const strata = strataOf(facts, playerOf);
  const { order } = strata;
  const values = [
    { key: ASKED, label, termId: null },
    { key: 'another', label: 'another call', termId: null },
  ];
  const call: LeveledDimension = {
    // Only names the table; nothing of it is told.
    dimension: 'called',
    values,
    codes,
    levels: levelsOf(codes, values.length, order, () => true),
  };
  const parts = new Set(input.partsOfCall);
  const families = readCues(side, facts, vocabulary)
    .filter(({ names }) => !names.some((name) => parts.has(name)))
    .flatMap((cue) => {
      const levels = levelsOf(cue.codes, cue.values.length, order, (count) => count >= FEWEST_CUE_PLAYS);
      return searchFamilies({ cue, levels }, call, strata, FEWEST_CUE_PLAYS);
    });
  const { rejected, adjusted } = benjaminiHochberg(
    families.map(({ pValue }) => pValue),
    level,
  );
  const described = { facts, places: order.toSorted(), confidence };
  const found = families.flatMap((family, place): Giveaway[] => {
    if (rejected[place] !== true) return [];
    const told = describeCall(family, testCall(family, 0, strata), described);
    if (told?.call.key !== ASKED || told.direction !== 'more') return [];
    return [{ ...told, adjustedPValue: elementAt(adjusted, place) }];
  });
  return { tested: families.length, found: found.sort((one, other) => other.difference - one.difference) };
}

const ASKED = 'asked';
