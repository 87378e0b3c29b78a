import type { ApiResponseOptions } from '@nestjs/swagger';
import { EXAMPLE_IDS } from '../../common/examples.js';
import type { SchemaObject } from '../../openapi/document-types.js';

type Content = NonNullable<Extract<ApiResponseOptions, { content?: unknown }>['content']>;

/** The report as data grows with what is computed, so only what every report has is named. */
const REPORT: SchemaObject = {
  type: 'object',
  required: ['id', 'playerId', 'opponent', 'eventId', 'round', 'madeAt', 'sample'],
  properties: {
    id: { type: 'string', format: 'uuid', example: EXAMPLE_IDS.match },
    playerId: { type: 'string', format: 'uuid', example: EXAMPLE_IDS.opponent, description: 'on whom' },
    opponent: { type: 'string', nullable: true, example: 'Brass Heron', description: 'the handle as it is now' },
    eventId: { type: 'string', format: 'uuid', nullable: true, example: EXAMPLE_IDS.event },
    round: { type: 'string', nullable: true, example: 'final' },
    madeAt: { type: 'string', format: 'date-time', example: '2026-03-01T18:00:00.000Z' },
    sample: { type: 'object', additionalProperties: true, example: { games: 3, offenseSnaps: 112 } },
  },
  additionalProperties: true,
};

const TEXT: SchemaObject = { type: 'string', example: 'ROUND REPORT: Brass Heron' };

/** The same report in each of the media types that it can be had as. */
export function reportContent(types: readonly string[]): Content {
  return Object.fromEntries(types.map((type) => [type, { schema: type === 'application/json' ? REPORT : TEXT }]));
}
