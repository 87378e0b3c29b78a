import { ApiProperty } from '@nestjs/swagger';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { ValueCount } from '#domain/tendencies/decisions/value-counts.js';
import { CountedShareResponse } from './figures.dto.js';
import { countedShare, value } from './figures.js';
import type { Plain } from './plain.js';
import { PlayReferenceResponse, playReferences } from './play-reference.dto.js';

/** A share that says in words what it is, and shows its plays. */
export class EvidencedShareResponse extends CountedShareResponse {
  @ApiProperty({ description: 'the figures as a sentence' }) words!: string;
  @ApiProperty({ type: [PlayReferenceResponse], description: 'the plays counted' }) plays!: PlayReferenceResponse[];
}

/** One value of a dimension among some plays. */
export class ValueCountResponse extends EvidencedShareResponse {
  @ApiProperty({ example: 'pass', description: 'in the words of the vocabulary' }) label!: string;
  @ApiProperty({ nullable: true, type: Number, example: null, description: 'term, where it is one' })
  termId!: number | null;
}

export function evidencedShare(
  words: string,
  share: ValueCount['share'],
  plays: PlayColumns,
): Plain<EvidencedShareResponse> {
  return { words, ...countedShare(share), plays: playReferences(share.evidence, plays) };
}

export function valueCount(words: string, of: ValueCount, plays: PlayColumns): Plain<ValueCountResponse> {
  return { ...value(of.value), ...evidencedShare(words, of.share, plays) };
}
