import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import { Matches } from 'class-validator';

/** A short name that a clan gives to an event, a game or a chart, unique among its own. */
const REFERENCE = /^[a-z0-9][a-z0-9-]{0,79}$/;

/** A property that holds such a name. */
export function IsReference(example: string): PropertyDecorator {
  return applyDecorators(
    Matches(REFERENCE, { message: 'lower-case letters, digits and dashes, at most 80' }),
    ApiProperty({ pattern: REFERENCE.source, example, description: 'unique among your own' }),
  );
}
