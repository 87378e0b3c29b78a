import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsInt, IsNumber, IsOptional, Max, Min } from 'class-validator';

interface QueryNumber {
  readonly minimum: number;
  readonly maximum: number;
  readonly description?: string;
  /** What the field is when it is left out. */
  readonly default?: number;
  readonly example?: number;
  /** Refused when it is left out. */
  readonly required?: boolean;
}

/** A whole number of a query: what is described is what is checked. */
export function WholeNumber(of: QueryNumber): PropertyDecorator {
  return applyDecorators(IsInt(), ...inRange('integer', of));
}

export function RealNumber(of: QueryNumber): PropertyDecorator {
  return applyDecorators(IsNumber({ allowNaN: false, allowInfinity: false }), ...inRange('number', of));
}

/** Of the intervals of an answer; 0.9 when it is left out. */
export function Confidence(): PropertyDecorator {
  return RealNumber({ minimum: 0.5, maximum: 0.99, default: 0.9, description: 'of every interval' });
}

function inRange(type: 'integer' | 'number', { required = false, ...described }: QueryNumber): PropertyDecorator[] {
  return [
    ApiProperty({ type, required, ...described }),
    ...(required ? [] : [IsOptional()]),
    Transform(({ value }: { value: unknown }) => numberIn(value)),
    Min(described.minimum),
    Max(described.maximum),
  ];
}

/** The number that was written; what is none stays as it was sent, to be refused and shown as that. */
function numberIn(value: unknown): unknown {
  if (typeof value !== 'string' || value.trim() === '') return value;
  const number = Number(value);
  return Number.isFinite(number) ? number : value;
}
