import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsBoolean,
  IsIn,
  IsOptional,
  IsString,
  Length,
  MaxLength,
  ValidateBy,
  ValidateNested,
} from 'class-validator';
import { CELL_READS, type CellRead } from '#domain/charting/sheet-mapping-reads.js';
import { NamePageQuery, PageLink } from '../../common/page.dto.js';
import { IsTextRecord } from './is-text-record.js';

const MOST_COLUMNS = 200;
const MOST_WORDS = 500;
const MOST_SAMPLES = 50;
const LONGEST_CELL = 2000;
const READS = Object.keys(CELL_READS);
const EXAMPLE_ID = '01890a5d-ac96-774b-bcce-b302099a8061';
const EXAMPLE_HEADERS = ['#', 'Ball', 'Situation', 'Look', 'Gain'];

export class WordMeaningInput {
  @ApiProperty({ example: 'nasty', description: 'a word, a phrase, or a whole cell' })
  @IsString()
  @Length(1, 200)
  word!: string;

  @ApiProperty({
    type: Object,
    additionalProperties: { type: 'string' },
    example: { formation: 'condensed' },
    description: 'fields that it fills, each as it would stand in a sheet; empty to skip the word',
  })
  @IsTextRecord()
  is!: Record<string, string>;
}

export class PossessionInput {
  @ApiProperty({ type: [String], example: ['O'] })
  @IsArray()
  @ArrayMaxSize(20)
  @IsString({ each: true })
  @Length(1, 80, { each: true })
  us!: string[];

  @ApiProperty({ type: [String], example: ['D'] })
  @IsArray()
  @ArrayMaxSize(20)
  @IsString({ each: true })
  @Length(1, 80, { each: true })
  them!: string[];
}

export class SheetColumnInput {
  @ApiProperty({
    example: 'Look',
    description: 'as in the sheet; the second of its name "Look (2)", an empty one "column 5"',
  })
  @IsString()
  @Length(1, 200)
  header!: string;

  @ApiPropertyOptional({ example: 'quarter', description: 'field, or key, that the whole cell fills' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  to?: string;

  @ApiPropertyOptional({
    type: [String],
    example: ['backfield', 'formation', 'strength', 'motion'],
    description: 'fields that the words of a cell are split over',
  })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(20)
  @IsString({ each: true })
  split?: string[];

  @ApiPropertyOptional({ enum: READS, example: 'first number', description: 'how numbers are written' })
  @IsOptional()
  @IsIn(READS)
  read?: CellRead;

  @ApiPropertyOptional({ type: [WordMeaningInput], description: 'words of this column' })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(MOST_WORDS)
  @ValidateNested({ each: true })
  @Type(() => WordMeaningInput)
  words?: WordMeaningInput[];

  @ApiPropertyOptional({ type: PossessionInput, description: 'cells that say who has the ball without a name' })
  @IsOptional()
  @ValidateNested()
  @Type(() => PossessionInput)
  possession?: PossessionInput;

  @ApiPropertyOptional({ example: false, description: 'leaves the column out on purpose' })
  @IsOptional()
  @IsBoolean()
  ignore?: boolean;
}

export class SheetMappingInput {
  @ApiProperty({ example: 'season sheet', description: 'unique in the clan' })
  @IsString()
  @Length(1, 80)
  name!: string;

  @ApiProperty({ type: [String], example: EXAMPLE_HEADERS, description: 'the header row that it was made for' })
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(MOST_COLUMNS)
  @IsString({ each: true })
  @MaxLength(200, { each: true })
  headers!: string[];

  @ApiProperty({
    type: [SheetColumnInput],
    example: [
      { header: 'Ball', possession: { us: ['O'], them: ['D'] } },
      { header: 'Situation', read: 'down and distance' },
      { header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] },
      { header: 'Gain', to: 'yardsGained', read: 'first number' },
    ],
    description: 'columns whose header is a field of its own need not be named',
  })
  @IsArray()
  @ArrayMaxSize(MOST_COLUMNS)
  @ValidateNested({ each: true })
  @Type(() => SheetColumnInput)
  columns!: SheetColumnInput[];

  @ApiPropertyOptional({
    type: Object,
    additionalProperties: { type: 'string' },
    example: { playType: 'scrimmage' },
    description: 'fields and keys that count where no column of the row says otherwise',
  })
  @IsOptional()
  @IsTextRecord()
  constants?: Record<string, string>;

  @ApiPropertyOptional({ type: [WordMeaningInput], description: 'what words mean, in every column of words' })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(MOST_WORDS)
  @ValidateNested({ each: true })
  @Type(() => WordMeaningInput)
  answers?: WordMeaningInput[];

  @ApiPropertyOptional({ type: String, nullable: true, example: 'Mossback', description: 'whom the sheet calls "us"' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  us?: string | null;

  @ApiPropertyOptional({
    enum: ['column', 'rows'],
    default: 'column',
    example: 'rows',
    description: 'whether a column numbers the plays, or they are numbered as they stand, each game from 1',
  })
  @IsOptional()
  @IsIn(['column', 'rows'])
  order?: 'column' | 'rows';
}

export class SheetMappingResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_ID }) id!: string;
  @ApiProperty({ example: 'season sheet' }) name!: string;
  @ApiProperty({ type: [String], example: EXAMPLE_HEADERS }) headers!: string[];
  @ApiProperty({
    type: [SheetColumnInput],
    example: [{ header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] }],
  })
  columns!: SheetColumnInput[];
  @ApiProperty({ type: Object, additionalProperties: { type: 'string' }, example: { playType: 'scrimmage' } })
  constants!: Record<string, string>;
  @ApiProperty({ type: [WordMeaningInput], example: [{ word: 'slot', is: { formation: 'twins' } }] })
  answers!: WordMeaningInput[];
  @ApiProperty({ type: String, nullable: true, example: 'Mossback' }) us!: string | null;
  @ApiProperty({ enum: ['column', 'rows'], example: 'rows' }) order!: 'column' | 'rows';
}

export class SheetMappingsQuery extends NamePageQuery {}

export class SheetMappingPage extends PageLink {
  @ApiProperty({ type: [SheetMappingResponse] }) items!: SheetMappingResponse[];
}

export class SuggestionInput {
  @ApiProperty({ type: [String], example: EXAMPLE_HEADERS, description: 'the header row of the sheet' })
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(MOST_COLUMNS)
  @IsString({ each: true })
  @MaxLength(200, { each: true })
  headers!: string[];

  @ApiPropertyOptional({
    type: 'array',
    items: { type: 'array', items: { type: 'string' } },
    example: [['1', 'O', '1st & 10', 'gun trips rt', '6']],
    description: `rows of the sheet, at most ${MOST_SAMPLES}`,
  })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(MOST_SAMPLES)
  @IsRowsOfText()
  rows?: string[][];
}

export class ColumnGuessResponse {
  @ApiProperty({ example: 'Look' }) header!: string;
  @ApiProperty({
    type: SheetColumnInput,
    nullable: true,
    example: { header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] },
    description: 'null where nothing seems to fit',
  })
  column!: object | null;
  @ApiProperty({ example: 0.9, description: 'from 0 to 1; a rule of thumb, no probability' }) confidence!: number;
}

export class MappingQuestionResponse {
  @ApiProperty({ enum: ['header', 'word', 'left over', 'missing'], example: 'word' }) kind!: string;
  @ApiProperty({ example: 'Look' }) header!: string;
  @ApiProperty({ example: 'slot' }) found!: string;
  @ApiProperty({ example: 'Is "slot" a receiver, a formation, or a defender?' }) question!: string;
  @ApiProperty({ example: 3, description: 'sample rows that it is about' }) rows!: number;
}

export class SuggestionResponse {
  @ApiProperty({
    type: SheetMappingResponse,
    nullable: true,
    description: "the clan's mapping for a sheet with these headers, the one changed last; null if there is none",
  })
  saved!: SheetMappingResponse | null;
  @ApiProperty({ type: [ColumnGuessResponse] }) columns!: readonly ColumnGuessResponse[];
  @ApiProperty({ type: [MappingQuestionResponse], description: 'what only you know' })
  questions!: readonly MappingQuestionResponse[];
  @ApiProperty({
    type: Object,
    example: { columns: [], constants: { playType: 'scrimmage' }, answers: [], us: null, order: 'rows' },
    description: 'a mapping to be completed by the answers, and sent with a name and the headers',
  })
  draft!: object;
}

function IsRowsOfText(): PropertyDecorator {
  const isText = (cell: unknown): boolean => typeof cell === 'string' && cell.length <= LONGEST_CELL;
  const isRow = (row: unknown): boolean => Array.isArray(row) && row.length <= MOST_COLUMNS && row.every(isText);
  return ValidateBy({
    name: 'isRowsOfText',
    validator: {
      validate: (rows: unknown) => Array.isArray(rows) && rows.every(isRow),
      defaultMessage: () => `arrays of texts, each of at most ${LONGEST_CELL} characters`,
    },
  });
}
