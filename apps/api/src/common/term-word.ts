import { applyDecorators } from '@nestjs/common';
import { ApiPropertyOptional, type ApiPropertyOptions } from '@nestjs/swagger';
import { IsOptional, IsString, Length } from 'class-validator';

/** How a property that holds one term's name is documented. */
export function termProperty(kind: string, example: string | null): ApiPropertyOptions {
  return { type: String, nullable: true, example, description: `a term of kind ${kind}, by any of its words` };
}

/** An optional property that holds a word for a term. */
export function IsTermWord(kind: string, example: string | null = null): PropertyDecorator {
  return applyDecorators(IsOptional(), IsString(), Length(1, 80), ApiPropertyOptional(termProperty(kind, example)));
}
