import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { AttackSplit, MeantAndWent } from '#domain/tendencies/point-of-attack/point-of-attack.js';
import { attackSplitWords, meantWords } from '#domain/tendencies/words/point-of-attack-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { interval, orNull, results, value } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import { evidencedShare } from '../../common/value-count.js';
import type { AttackSplitResponse, MeantAndWentResponse } from './point-of-attack.dto.js';

/** @param what - what the split is by: `against front` */
export function attackSplit(split: AttackSplit, what: string, plays: PlayColumns, voice: Voice): AttackSplitResponse {
  return {
    value: orNull(split.value, value),
    snaps: split.snaps,
    forced: evidencedShare(attackSplitWords(split, what, voice), split.forced, plays),
    whenForced: results(split.whenForced),
    whenNot: results(split.whenNot),
    price: orNull(split.price, interval),
  };
}

export function meantAndWent(pairs: readonly MeantAndWent[], plays: PlayColumns): MeantAndWentResponse[] {
  const meantFor = new Map<string, number>();
  for (const { meant, count } of pairs) meantFor.set(meant.key, (meantFor.get(meant.key) ?? 0) + count);
  return pairs.map((pair) => {
    const known = meantFor.get(pair.meant.key) ?? 0;
    return {
      words: meantWords(pair, known),
      meant: value(pair.meant),
      went: value(pair.went),
      count: pair.count,
      known,
      plays: playReferences(pair.evidence, plays),
    };
  });
}
