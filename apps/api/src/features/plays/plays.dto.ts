import { ApiProperty, ApiPropertyOptional, type ApiPropertyOptions } from '@nestjs/swagger';
import { PLAY_FIELDS, type PlayField } from '#domain/charting/play-fields.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';

const KNOWN_BY = ['seen', 'inferred', 'told', 'own call log'];

const KNOWN = {
  type: 'object',
  nullable: true,
  additionalProperties: { type: 'string', enum: KNOWN_BY },
  example: { coverage: 'inferred' },
  description: 'field -> how it is known, where somebody said so',
} as const satisfies ApiPropertyOptions;

const NOTE = { type: String, nullable: true, maxLength: 2000, example: 'left guard pulled early' } as const;

const ORDER = { type: 'integer', minimum: 1, maximum: 2000 } as const;

/** What the analyst saw of an adjustment before the snap; in the order in which they were made. */
export class AdjustmentDetail {
  @ApiProperty({ example: 'play mirrored', description: 'a term of kind preSnapAdjustment' }) term!: string;
  @ApiPropertyOptional({ minimum: 0, maximum: 60, example: 7 }) secondsLeft?: number;
  @ApiPropertyOptional({ maxLength: 200, example: 'the safety walked down' }) trigger?: string;
}

/** Beside the fields of the catalogue. The body is read field by field, so this class only documents it. */
export class PlayInput {
  @ApiProperty({
    enum: ['home', 'away'],
    example: 'home',
    description: "whose ball it is: the game's home or away player",
  })
  offense!: string;
  @ApiPropertyOptional({
    ...ORDER,
    example: 12,
    description: 'each once in a chart; the next one where it is left out',
  })
  orderInGame?: number;
  @ApiPropertyOptional({
    type: [AdjustmentDetail],
    nullable: true,
    description: 'says preSnapAdjustments in more detail',
  })
  adjustments?: AdjustmentDetail[] | null;
  @ApiPropertyOptional(KNOWN) knownBy?: Record<string, string> | null;
  @ApiPropertyOptional(NOTE) note?: string | null;
}

export class PlayResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ type: 'integer', example: 12, description: 'given once in its chart and never again' })
  playNumber!: number;
  @ApiProperty({ type: 'integer', example: 12 }) orderInGame!: number;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ enum: ['home', 'away'], example: 'home' }) offense!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) offensePlayerId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) defensePlayerId!: string;
  @ApiProperty({ type: [AdjustmentDetail], nullable: true, example: null })
  adjustments!: readonly unknown[] | null;
  @ApiProperty(KNOWN) knownBy!: unknown;
  @ApiProperty(NOTE) note!: string | null;
  @ApiProperty({
    type: [String],
    example: [],
    description: "fields whose term is another clan's own and stands for no starter term: null to you",
  })
  foreign!: string[];
  /** The fields of the catalogue. */
  [field: string]: unknown;
}

export class PlayPage extends PageLink {
  @ApiProperty({ type: [PlayResponse] }) items!: PlayResponse[];
}

const EXAMPLES: Readonly<Record<string, unknown>> = {
  playType: 'scrimmage',
  quarter: 2,
  down: 3,
  distance: 4,
  yardsToGoal: 41,
  formation: 'trips',
  callFamily: 'dropback pass',
  snapResult: 'complete',
  yardsGained: 8,
};

function documented(field: PlayField): ApiPropertyOptions {
  const about = { nullable: field.name !== 'playType', example: EXAMPLES[field.name] ?? null };
  switch (field.type) {
    case 'number':
      return { ...about, type: 'integer', minimum: field.minimum, maximum: field.maximum, description: field.meaning };
    case 'choice':
      return {
        ...about,
        type: 'string',
        enum: about.nullable ? [...field.choices, null] : [...field.choices],
        description: field.meaning,
      };
    case 'term':
      return { ...about, type: 'string', description: `${field.meaning}; a term of kind ${field.kind}` };
    case 'terms':
      return {
        ...about,
        type: 'array',
        items: { type: 'string' },
        description: `${field.meaning}; terms of kind ${field.kind}`,
      };
  }
}

for (const field of PLAY_FIELDS) {
  const options = documented(field);
  const required = field.name === 'playType';
  (required ? ApiProperty(options) : ApiPropertyOptional(options))(PlayInput.prototype, field.name);
  ApiProperty(options)(PlayResponse.prototype, field.name);
}
