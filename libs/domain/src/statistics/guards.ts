import { DomainError } from '../domain-error.js';

export interface CountLimits {
  readonly min: number;
  readonly max?: number;
}

export function assertCount(name: string, value: number, { min, max = Number.MAX_SAFE_INTEGER }: CountLimits): void {
  if (!Number.isSafeInteger(value) || value < min || value > max) {
    throw new DomainError('stats.invalid_count', `${name} must be an integer from ${min} to ${max}, is ${value}`, {
      name,
      value,
      min,
      max,
    });
  }
}

export function assertFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) refuseNumber(name, value, 'finite');
}

export function assertPositive(name: string, value: number): void {
  if (!Number.isFinite(value) || value <= 0) refuseNumber(name, value, 'finite and above 0');
}

export function assertNonNegative(name: string, value: number): void {
  if (!Number.isFinite(value) || value < 0) refuseNumber(name, value, 'finite and not below 0');
}

/** A probability strictly between 0 and 1, such as a confidence. */
export function assertOpenUnit(name: string, value: number): void {
  if (!(value > 0 && value < 1)) refuseProbability(name, value, 'in (0, 1)');
}

/** A probability or share that may be 0 or 1. */
export function assertUnit(name: string, value: number): void {
  if (!(value >= 0 && value <= 1)) refuseProbability(name, value, 'in [0, 1]');
}

// Shares read from text carry rounding of about 1e-10 each; a forgotten category is larger than this by far.
const SUM_TOLERANCE = 1e-6;

/** Shares of all categories, each in [0, 1], adding up to 1 within 1e-6. */
export function assertShares(name: string, values: readonly number[]): void {
  assertLength(name, values, { min: 1 });
  let sum = 0;
  for (const value of values) {
    assertUnit(name, value);
    sum += value;
  }
  if (Math.abs(sum - 1) > SUM_TOLERANCE) refuseProbability(name, sum, 'shares adding up to 1');
}

/** Shares of at least two categories, each above 0, adding up to 1 within 1e-6: the mean of a prior. */
export function assertOpenShares(name: string, values: readonly number[]): void {
  assertLength(name, values, { min: 2 });
  assertShares(name, values);
  for (const value of values) assertOpenUnit(name, value);
}

export function assertLength(name: string, values: readonly unknown[], { min, max }: CountLimits): void {
  if (values.length < min || (max !== undefined && values.length > max)) {
    throw new DomainError('stats.invalid_shape', `${name} has ${values.length} entries, needs at least ${min}`, {
      name,
      length: values.length,
      min,
      max,
    });
  }
}

export function assertSameLength(name: string, values: readonly unknown[], expected: number): void {
  if (values.length !== expected) {
    throw new DomainError('stats.invalid_shape', `${name} has ${values.length} entries, needs ${expected}`, {
      name,
      length: values.length,
      expected,
    });
  }
}

export interface TableLimits {
  readonly rows?: number;
  readonly columns?: number;
  readonly minRows?: number;
  readonly minColumns?: number;
}

/** A rectangular table of counts: rows × columns, integers ≥ 0. */
export function assertCountTable(name: string, table: readonly (readonly number[])[], limits: TableLimits = {}): void {
  const { rows, columns = table[0]?.length ?? 0, minRows = 1, minColumns = 1 } = limits;
  assertLength(name, table, { min: minRows });
  if (rows !== undefined) assertSameLength(`${name} rows`, table, rows);
  for (const row of table) {
    assertSameLength(`${name} columns`, row, columns);
    assertLength(`${name} columns`, row, { min: minColumns });
    for (const count of row) assertCount(name, count, { min: 0 });
  }
}

function refuseNumber(name: string, value: number, need: string): never {
  throw new DomainError('stats.invalid_number', `${name} must be ${need}, is ${value}`, { name, value });
}

function refuseProbability(name: string, value: number, need: string): never {
  throw new DomainError('stats.invalid_probability', `${name} must be ${need}, is ${value}`, { name, value });
}
