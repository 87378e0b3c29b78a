import { Transform } from 'class-transformer';

/** `true` and `false` of a query string; whatever else there is stays for the check to refuse. */
export function AsBoolean(): PropertyDecorator {
  return Transform(({ value }: { value: unknown }) => (value === 'true' ? true : value === 'false' ? false : value));
}
