import type { Vocabulary } from '../../charting/vocabulary.js';
import { benjaminiHochberg } from '../../statistics/benjamini-hochberg.js';
import { elementAt } from '../../statistics/element-at.js';
import { assertOpenUnit } from '../../statistics/guards.js';
import { twoLevelSelection } from '../../statistics/two-level-selection.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import { readCuePairs, readCues, type Cue } from './cues.js';
import { describeCall, type Described } from './describe-call.js';
import { levelsOf } from './levels.js';
import { searchFamilies, testCall, type LeveledDimension, type SearchedFamily } from './search.js';
import { strataOf, type Strata } from './strata.js';
import type { Tell, TellsResult } from './tell-shape.js';
import { mayTell, readTold, TOLD_DIMENSIONS } from './told-dimensions.js';

export interface TellsInput {
  /** The player's plays only: those with the ball for offense, those of opponents for defense. */
  readonly plays: TendencyPlays;
  readonly side: Side;
  /** By whose canonical ids the batch was gathered. */
  readonly vocabulary: Vocabulary;
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
  /** False discovery rate in (0, 1). */
  readonly level: number;
}

/** One false discovery in ten, on average: what a scout can live with, since each comes with its film. */
export const DEFAULT_TELL_LEVEL = 0.1;

// What is looked at is decided by how often it occurs, never by what went with it. Common practice, no source.
/** Plays with a cue value, and without it. */
export const FEWEST_CUE_PLAYS = 10;
/** A call made five times, always from one look, is worth knowing. */
const FEWEST_CALL_PLAYS = 5;
/** Share of the plays from which a pair of cues occurs often enough, and the plays it needs at least. */
const PAIR_SHARE = 0.05;
const FEWEST_PAIR_PLAYS = 20;
/** A pair that is nearly all of one of its parts says nothing of its own. */
const PAIR_OF_ITS_PART = 0.8;

/**
 * What gives a player's calls away: every value of every cue visible before the snap against every call, on one side of
 * the ball. Only discoveries are returned as tells.
 *
 * Cue and call are compared within one situation of one game, so that neither a down and distance nor one game's plan
 * makes a tell; plays that are alone there are compared with each other within the situation, no game having more than one. Families (one cue value, all calls of a dimension) are selected by Benjamini and Hochberg's rule over their
 * Simes p-values; calls are then found inside the selected families at level × selected / tested. A call is tested by
 * Cochran-Mantel-Haenszel with continuity correction where the Mantel-Fleiss figure is at least 5, by the exact
 * conditional mid-P value below it. Unknown is counted nowhere.
 *
 * The effect of a discovery is overstated on average, since it was found for being large; so the interval is, too.
 *
 * @returns no tells, and zero families, for a player without plays
 * @throws DomainError `stats.invalid_probability` for confidence or level; `vocabulary.unknown_code` when the vocabulary
 *   lacks the starter terms
 * @see Mantel & Haenszel (1959), J. Natl. Cancer Inst. 22, 719–748; Mantel & Fleiss (1980), Am. J. Epidemiol. 112, 129–134;
 *   Simes (1986), Biometrika 73, 751–754; Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300; Benjamini & Bogomolov (2014), J. R. Stat. Soc. B 76, 297–318
 */
export function tells(input: TellsInput): TellsResult {
  const { plays: facts, side, vocabulary, confidence, level } = input;
  assertOpenUnit('confidence', confidence);
  assertOpenUnit('level', level);
  const strata = strataOf(facts);
  const families = searchAll(side, facts, vocabulary, strata);

  const { rejected, adjusted } = benjaminiHochberg(
    families.map(({ pValue }) => pValue),
    level,
  );
  const selectedFamilies = rejected.filter(Boolean).length;
  const selections = twoLevelSelection(
    families.map(({ pValue, pValues }) => ({ pValue, members: pValues })),
    level,
  );

  const described: Described = { facts, places: strata.order.toSorted(), confidence };
  const found = families.flatMap((family, index) => {
    const { selected, rejected: members } = elementAt(selections, index);
    if (!selected) return [];
    const within = benjaminiHochberg(family.pValues, level).adjusted;
    return family.columns.flatMap((column, member) => {
      if (!elementAt(members, member)) return [];
      const call = describeCall(family, testCall(family, column, strata), described);
      if (call === null) return [];
      const scaled = (elementAt(within, member) * families.length) / selectedFamilies;
      return [{ ...call, adjustedPValue: Math.min(1, Math.max(elementAt(adjusted, index), scaled)) }];
    });
  });
  found.sort((a, b) => a.adjustedPValue - b.adjustedPValue || a.pValue - b.pValue);
  return {
    side,
    level,
    confidence,
    tested: {
      plays: strata.order.length,
      games: new Set(strata.games).size,
      withoutSituation: strata.withoutSituation,
      cueValues: new Set(families.map(({ cueValue }) => cueValue)).size,
      families: families.length,
      selectedFamilies,
      calls: families.reduce((sum, { columns }) => sum + columns.length, 0),
    },
    tells: found.map((tell) => ({ ...tell, restates: restates(tell, found) })),
    search: { facts, strata, families },
  };
}

function searchAll(side: Side, facts: TendencyPlays, vocabulary: Vocabulary, strata: Strata): SearchedFamily[] {
  const { order } = strata;
  const dimensions = TOLD_DIMENSIONS[side].map((dimension): LeveledDimension => {
    const { codes, values } = readTold(dimension, facts, vocabulary);
    const levels = levelsOf(codes, values.length, order, (count) => count >= FEWEST_CALL_PLAYS);
    return { dimension, values, codes, levels };
  });
  const single = readCues(side, facts, vocabulary);
  const playsOf = new Map(single.flatMap(({ codes, values }) => [...countsOf(codes, values, order)]));
  const leveled = [
    ...single.map((cue) => ({
      cue,
      levels: levelsOf(cue.codes, cue.values.length, order, (count) => count >= FEWEST_CUE_PLAYS),
    })),
    ...readCuePairs(side, single).map((cue) => ({
      cue,
      levels: levelsOf(cue.codes, cue.values.length, order, (count, known, value) => {
        const ofParts = (cue.values[value]?.parts ?? []).map((part) => playsOf.get(part) ?? 0);
        return (
          count >= Math.max(FEWEST_PAIR_PLAYS, PAIR_SHARE * known) && count <= PAIR_OF_ITS_PART * Math.min(...ofParts)
        );
      }),
    })),
  ];
  return leveled.flatMap((leveledCue) =>
    dimensions
      .filter(({ dimension }) => mayTell(leveledCue.cue.names, dimension))
      .flatMap((dimension) => searchFamilies(leveledCue, dimension, strata, FEWEST_CUE_PLAYS)),
  );
}

function countsOf(codes: Int16Array, values: Cue['values'], order: Int32Array): Map<unknown, number> {
  const counts = new Int32Array(values.length);
  for (const play of order) {
    const code = codes[play] ?? -1;
    if (code >= 0) counts[code] = (counts[code] ?? 0) + 1;
  }
  return new Map(values.map(({ parts }, value) => [parts[0], counts[value] ?? 0]));
}

function restates(tell: Omit<Tell, 'restates'>, found: readonly Omit<Tell, 'restates'>[]): boolean {
  if (tell.cueValue.parts.length < 2) return false;
  return found.some(
    (other) =>
      other.cueValue.parts.length === 1 &&
      other.cueValue.parts.some((part) => tell.cueValue.parts.includes(part)) &&
      other.dimension === tell.dimension &&
      other.call === tell.call &&
      other.direction === tell.direction,
  );
}
