import { EXAMPLE_IDS } from '../../common/examples.js';
import type { ReadableContent } from '../../common/tagged-answer.js';
import type { SchemaObject } from '../../openapi/document-types.js';

/** Of the sheet as data only what every one has is named, as for round reports. */
const SHEET: SchemaObject = {
  type: 'object',
  required: ['playerId', 'opponentId', 'opponent', 'eventId', 'codeVersion', 'charts', 'sheet'],
  properties: {
    playerId: { type: 'string', format: 'uuid', example: EXAMPLE_IDS.player, description: 'for whom' },
    opponentId: { type: 'string', format: 'uuid', example: EXAMPLE_IDS.opponent },
    opponent: { type: 'string', nullable: true, example: 'Brass Heron' },
    eventId: { type: 'string', format: 'uuid', example: EXAMPLE_IDS.event },
    round: { type: 'string', nullable: true, example: 'quarter-final' },
    codeVersion: { type: 'string', example: '0.1.0' },
    charts: {
      type: 'array',
      description: "the opponent's charts and their revisions",
      items: { type: 'object', additionalProperties: true },
    },
    sheet: {
      type: 'object',
      additionalProperties: true,
      description: 'both sides, cell by cell: what they do, our calls, their order, clips, evidence; fourth downs',
      example: { formatVersion: 1, seed: 0, lean: 0.33 },
    },
  },
  additionalProperties: false,
};

const TEXT: SchemaObject = { type: 'string', example: 'CALL SHEET against Brass Heron' };

/** The same sheet in each of the media types that it can be had as. */
export function callSheetContent(types: readonly string[]): ReadableContent {
  return Object.fromEntries(types.map((type) => [type, { schema: type === 'application/json' ? SHEET : TEXT }]));
}
