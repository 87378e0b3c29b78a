import { applyDecorators } from '@nestjs/common';
import { IsDateString, Matches } from 'class-validator';

/** A day without a time: 2026-03-01. */
export function IsDay(): PropertyDecorator {
  return applyDecorators(
    IsDateString({ strict: true }),
    Matches(/^\d{4}-\d{2}-\d{2}$/, { message: 'a day as YYYY-MM-DD' }),
  );
}
