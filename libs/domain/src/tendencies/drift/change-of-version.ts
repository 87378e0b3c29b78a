import type { DimensionName, DimensionValue } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import { Evidence } from '../evidence.js';
import { allPlaces, othersPlaces, type AskedPlays, type FieldPlays } from '../decisions/asked-plays.js';
import { countedShare, type CountedShare } from '../decisions/counted-share.js';
import {
  clusteredShare,
  differenceOfEstimates,
  leavesOutZero,
  meanDesignEffect,
  type ClusterCount,
  type EstimatedShare,
} from './clustered-difference.js';
import { countGames, totalOf, type GameCounts } from './game-counts.js';
import { EARLIER, RECENT, type Periods } from './periods.js';

/** Who changed over a change of the rules. */
export type VersionVerdict =
  /** The field moved, and the player with it as far as can be told. */
  | 'the version changed'
  /** The player moved otherwise than the field, which stayed where it was. */
  | 'the player changed'
  /** The field moved, and the player otherwise. */
  | 'both changed'
  /** Neither can be told from standing still. */
  | 'not settled';

export interface VersionChange {
  readonly dimension: DimensionName;
  readonly value: DimensionValue;
  readonly earlier: CountedShare;
  readonly recent: CountedShare;
  /** Recent less earlier, the player's and the field's, with intervals that treat games as clusters. */
  readonly player: EstimatedShare;
  readonly field: EstimatedShare;
  /** The player's move beyond the field's. */
  readonly beyond: EstimatedShare;
  readonly verdict: VersionVerdict;
}

/** Players of the field that were charted before and after: a field that only changed its players has not moved. */
function stayedPlaces(field: FieldPlays, player: number, periods: Periods): Int32Array {
  const before = new Set<number>();
  const after = new Set<number>();
  for (const play of othersPlaces(field, player)) {
    const whose = field.playerOf[play] ?? -1;
    if (periods[play] === EARLIER) before.add(whose);
    if (periods[play] === RECENT) after.add(whose);
  }
  return othersPlaces(field, player).filter((play) => {
    const whose = field.playerOf[play] ?? -1;
    return before.has(whose) && after.has(whose);
  });
}

/**
 * Tells "the version changed" from "the player changed": how each share moved over the change, for the player and for
 * those of the field that were charted on both sides of it, and by how much the player moved beyond the field. Intervals
 * treat games as clusters. Each share is judged on its own: with many shares choose the confidence accordingly.
 *
 * @param asked        - the player's plays and the field; without a field nothing can be told, and nothing is returned
 * @param dimensions   - those to look at; one that is not known on both sides for both is left out
 * @param periods      - of the player's plays: before and after the change
 * @param fieldPeriods - of the field's
 * @returns values by dimension, in the order of the batch
 * @throws DomainError `stats.invalid_probability`
 * @see Zou & Donner (2008), Stat. Med. 27, 1693–1702; Kish (1965), Survey Sampling; Rao & Scott (1981), J. Am. Stat. Assoc.
 *   76, 221–230
 */
export function changeOfVersion(
  asked: AskedPlays,
  dimensions: readonly DimensionName[],
  periods: Periods,
  fieldPeriods: Periods,
): VersionChange[] {
  const { facts, field, player, vocabulary, confidence } = asked;
  if (field === null) return [];
  const stayed = stayedPlaces(field, player, fieldPeriods);
  const places = allPlaces(facts);
  return dimensions.flatMap((dimension) => {
    const read = readDimension(dimension, facts, vocabulary);
    const fieldRead = readDimension(dimension, field.facts, vocabulary);
    const own = countGames(facts, read, periods, places);
    const others = countGames(field.facts, fieldRead, fieldPeriods, stayed);
    const [ownEffect, fieldEffect] = [effectOf(own, read.values.length), effectOf(others, fieldRead.values.length)];
    const moved = (later: readonly ClusterCount[], sooner: readonly ClusterCount[], effect: number): EstimatedShare =>
      differenceOfEstimates(clusteredShare(later, effect, confidence), clusteredShare(sooner, effect, confidence));
    return read.values.flatMap((value, code): VersionChange[] => {
      const fieldCode = fieldRead.values.findIndex(({ key }) => key === value.key);
      const [earlier, recent] = [clusters(own, 'earlier', code), clusters(own, 'recent', code)];
      const [before, after] = [clusters(others, 'earlier', fieldCode), clusters(others, 'recent', fieldCode)];
      if (sumOf([...earlier, ...recent]).count === 0) return [];
      if ([earlier, recent, before, after].some((part) => sumOf(part).known === 0)) return [];
      const [ofPlayer, ofField] = [moved(recent, earlier, ownEffect), moved(after, before, fieldEffect)];
      const beyond = differenceOfEstimates(ofPlayer, ofField);
      const cite = (period: number): Evidence =>
        new Evidence(
          facts.plays,
          places,
          (play) => periods[play] === period && read.codes[play] === code && facts.counts[play] === 1,
        );
      return [
        {
          dimension,
          value,
          earlier: countedShare(sumOf(earlier), sumOf(before), confidence, cite(EARLIER)),
          recent: countedShare(sumOf(recent), sumOf(after), confidence, cite(RECENT)),
          player: ofPlayer,
          field: ofField,
          beyond,
          verdict: verdictOf(leavesOutZero(ofField), leavesOutZero(beyond)),
        },
      ];
    });
  });
}

function verdictOf(fieldMoved: boolean, beyondField: boolean): VersionVerdict {
  if (beyondField) return fieldMoved ? 'both changed' : 'the player changed';
  return fieldMoved ? 'the version changed' : 'not settled';
}

/** Of all values of a dimension and both periods. */
function effectOf(games: readonly GameCounts[], values: number): number {
  return meanDesignEffect(
    Array.from({ length: values }, (_, code) => [
      clusters(games, 'earlier', code),
      clusters(games, 'recent', code),
    ]).flat(),
  );
}

function clusters(games: readonly GameCounts[], period: 'earlier' | 'recent', code: number): ClusterCount[] {
  return games.map((game) => ({ count: game[period][code] ?? 0, known: totalOf(game[period]) }));
}

function sumOf(parts: readonly ClusterCount[]): ClusterCount {
  return parts.reduce((sum, part) => ({ count: sum.count + part.count, known: sum.known + part.known }), {
    count: 0,
    known: 0,
  });
}
