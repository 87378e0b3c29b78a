import {
  ArrayMaxSize,
  ArrayUnique,
  IsBoolean,
  IsIn,
  IsInt,
  IsNumber,
  IsString,
  IsUUID,
  Length,
  Matches,
  Max,
  Min,
  validateSync,
} from 'class-validator';
import { fieldProblems } from './field-problems.js';

class Form {
  @IsNumber() @Min(0.5) @Max(0.99) share: unknown = 'abc';
  @IsInt() @Min(1) games: unknown = 0.5;
  @Max(3) timeouts: unknown = 4;
  @IsIn(['home', 'away']) side: unknown = 'middle';
  @IsUUID() eventId: unknown = 'pond-cup';
  @IsBoolean() rehearsed: unknown = 'maybe';
  @IsString() @Length(1, 80) name: unknown = 7;
  @Length(1, 80) handle: unknown = '';
  @Length(1, 3) code: unknown = 'heron';
  @Matches(/^[1-4]$/) downs: unknown = '7';
  @Matches(/^[1-4]$/, { message: 'a down' }) down: unknown = '7';
  @IsString({ each: true }) @Length(2, 80, { each: true }) aliases: unknown = [3];
  @ArrayUnique() @ArrayMaxSize(2) @IsString({ each: true }) tags: unknown = ['reed', 'reed', 'wick'];
}

const problems = fieldProblems(
  validateSync(Object.assign(new Form(), { colour: 'red' }), { whitelist: true, forbidNonWhitelisted: true }),
  'parameter',
);

describe('what class-validator refuses', () => {
  it.each([
    ['share', 'abc', 'a number, at least 0.5, at most 0.99'],
    ['games', '0.5', 'a whole number, at least 1'],
    ['timeouts', '4', 'at most 3'],
    ['side', 'middle', 'one of: home, away'],
    ['eventId', 'pond-cup', 'a UUID'],
    ['rehearsed', 'maybe', 'true or false'],
    ['name', '7', 'text, 1 to 80 characters'],
    ['handle', '', '1 or more characters'],
    ['code', 'heron', 'at most 3 characters'],
    ['downs', '7', 'text that fits /^[1-4]$/'],
    ['down', '7', 'a down'],
    ['aliases', '[3]', 'each text, each 2 or more characters'],
    ['tags', '["reed","reed","wick"]', 'at most 2 elements, no element twice'],
    ['colour', 'red', 'is no parameter here'],
  ])('is told of %s once and in plain words', (field, found, expected) => {
    expect(problems.filter((problem) => problem.field === field)).toEqual([{ field, found, expected }]);
  });
});
