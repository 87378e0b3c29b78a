import { applyDecorators } from '@nestjs/common';
import { ApiQuery } from '@nestjs/swagger';
import { PLAY_FIELDS, playField } from '#domain/charting/play-fields.js';
import { readCell } from '#domain/charting/read-cell.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import type { PlayFilter, PlayKey } from './plays.repository.js';

const MOST = 200;
const USUAL = 50;
const AFTER = /^([0-9a-f-]{36})\.(\d{1,5})\.(\d{1,5})$/;
const OTHERS: ReadonlySet<string> = new Set(['limit', 'after', 'fields']);

/** A query string as it came: any field of the catalogue may be asked for, so no class lists them. */
export type PlaysQuery = Readonly<Record<string, unknown>>;

export interface PlayPageQuery {
  readonly limit: number;
  readonly after: PlayKey | null;
  readonly filters: readonly PlayFilter[];
}

/**
 * Reads which plays are wanted: a page, and any field of the catalogue with the value that it must have, in the words in
 * which it is charted. `also` are parameters that the caller reads itself.
 *
 * @throws ApiError `request.invalid` naming every parameter that cannot be used
 */
export function readPlaysQuery(query: PlaysQuery, vocabulary: Vocabulary, also: readonly string[] = []): PlayPageQuery {
  const errors: FieldProblem[] = [];
  const refuse = (field: string, found: unknown, expected: string): void => {
    errors.push({ field, found: printed(found), expected });
  };
  const filters: PlayFilter[] = [];
  for (const [name, text] of Object.entries(query)) {
    if (OTHERS.has(name) || also.includes(name)) continue;
    const field = playField(name);
    if (field === undefined || typeof text !== 'string') {
      refuse(name, text, 'a field of a play, once');
      continue;
    }
    const reading = readCell(field, text, vocabulary);
    if (!reading.ok) refuse(name, text, reading.expected);
    else if (reading.value === null) refuse(name, text, 'something that is known');
    else filters.push({ field, value: reading.value });
  }
  const limit = query['limit'] === undefined ? USUAL : Number(query['limit']);
  if (!Number.isInteger(limit) || limit < 1 || limit > MOST) refuse('limit', query['limit'], `from 1 to ${MOST}`);
  const after = afterOf(query['after']);
  if (after === undefined) refuse('after', query['after'], '`next` of the page before');
  if (errors.length > 0) throw new ApiError('request.invalid', 'some parameters are not valid', { errors });
  return { limit, after: after ?? null, filters };
}

function afterOf(text: unknown): PlayKey | null | undefined {
  if (text === undefined) return null;
  const [, chartId, orderInGame, playNumber] = (typeof text === 'string' ? AFTER.exec(text) : null) ?? [];
  if (chartId === undefined) return undefined;
  return { chartId, orderInGame: Number(orderInGame), playNumber: Number(playNumber) };
}

/** What `afterOf` reads again. */
export function keyText({ chartId, orderInGame, playNumber }: PlayKey): string {
  return `${chartId}.${orderInGame}.${playNumber}`;
}

/** Documents the parameters that `readPlaysQuery` reads. */
export function PlaysParameters(): MethodDecorator {
  return applyDecorators(
    ApiQuery({
      name: 'limit',
      required: false,
      schema: { type: 'integer', minimum: 1, maximum: MOST, default: USUAL },
    }),
    ApiQuery({ name: 'after', required: false, type: String, description: '`next` of the page before' }),
    ApiQuery({ name: 'fields', required: false, type: String, description: 'of every play only these fields' }),
    ...PLAY_FIELDS.map(({ name, meaning }) =>
      ApiQuery({ name, required: false, type: String, description: `only plays with this: ${meaning}` }),
    ),
  );
}
