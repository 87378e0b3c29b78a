import { plainToInstance } from 'class-transformer';
import { validateSync } from 'class-validator';
import { fieldProblems } from './field-problems.js';
import { ApiError } from './problems.js';

/**
 * Checks plain data by the rules of a class; a field that the class does not know is refused.
 *
 * @throws ApiError `request.invalid` with every field that does not fit
 */
export function validated<Dto extends object>(type: new () => Dto, plain: unknown): Dto {
  const dto = plainToInstance(type, plain);
  const wrong = validateSync(dto, { whitelist: true, forbidNonWhitelisted: true });
  if (wrong.length > 0) {
    throw new ApiError('request.invalid', 'some fields are not valid', { errors: fieldProblems(wrong, 'property') });
  }
  return dto;
}
