import { Injectable, type ArgumentMetadata, type PipeTransform } from '@nestjs/common';
import { printed } from './printed.js';
import { ApiError } from './problems.js';

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** Refuses an id that is no UUID with the field's name, before it could reach a query. */
@Injectable()
export class UuidPipe implements PipeTransform<string, string> {
  transform(value: string, { data }: ArgumentMetadata): string {
    if (UUID.test(value)) return value.toLowerCase();
    throw new ApiError('request.invalid', 'an id is not a UUID', {
      errors: [{ field: data ?? 'id', found: printed(value), expected: 'a UUID' }],
    });
  }
}
