const SECOND = 'SS';
/** As exactly as PostgreSQL keeps it, for what must tell two from each other that are close. */
export const MICROSECOND = 'SS.US';

/** SQL for a moment as answers say it: in UTC, as RFC 3339. */
export function instant(column: string, precision = SECOND): string {
  return `to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:${precision}"Z"')`;
}
