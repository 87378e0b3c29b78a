import { Injectable, type ArgumentMetadata, type PipeTransform } from '@nestjs/common';
import { printed } from './printed.js';
import { ApiError } from './problems.js';

/** Ids and numbers of rows are PostgreSQL's integers. */
const LARGEST = 2_147_483_647;

/** Refuses what is no whole number from 1 on with the field's name, before it could reach a query. */
@Injectable()
export class NumberPipe implements PipeTransform<string, number> {
  transform(text: string, { data }: ArgumentMetadata): number {
    const value = /^\d{1,10}$/.test(text) ? Number(text) : 0;
    if (value >= 1 && value <= LARGEST) return value;
    throw new ApiError('request.invalid', 'a number is not one', {
      errors: [{ field: data ?? 'number', found: printed(text), expected: 'a whole number from 1 on' }],
    });
  }
}
