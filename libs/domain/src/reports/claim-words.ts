import type { Interval } from '../statistics/interval.js';
import { FEWEST_FOR_PERCENT, percent, percentRange } from '../tendencies/words/count-words.js';
import type { ResultClaim, ShareClaim } from './round-report-shape.js';

interface Counted {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  readonly interval: Interval;
  readonly field: number | null;
}

function counted({ count, of, share, interval, field }: Counted): string {
  const counts = `${count} of ${of}`;
  if (of < FEWEST_FOR_PERCENT) return counts;
  const beside = field === null ? '' : `, field ${percent(field)}`;
  return `${counts} (${percent(share)}, ${percentRange(interval)})${beside}`;
}

/** `cover 3 (coverage played)`; `no motion` where nothing was there; the value alone without a dimension. */
export function valueWords({ label, dimensionLabel }: Pick<ResultClaim, 'label' | 'dimensionLabel'>): string {
  if (dimensionLabel === null) return label;
  return label === 'none' ? `no ${dimensionLabel}` : `${label} (${dimensionLabel})`;
}

/**
 * A share in words, never without its counts: `3 of 4` below ten plays, from ten
 * `9 of 12 (75 %, 51-90 %), field 61 %; known on 12 of 15`. The level of the interval is said once in the report.
 */
export function shareWords(claim: ShareClaim): string {
  const { count, known, snaps, share, interval, fieldShare } = claim;
  const words = [counted({ count, of: known, share, interval, field: fieldShare })];
  if (known < snaps) words.push(`known on ${known} of ${snaps}`);
  if (claim.games === 1 && claim.situationGames > 1 && count > 1) words.push('in one game only');
  // Below ten plays nearly every share differs from the field; the counts say so themselves.
  if (claim.conflict && known >= FEWEST_FOR_PERCENT) words.push('unlike the field, on few plays');
  return words.join('; ');
}

/** A success rate in words, by the same rule, with yards a play where they are known. */
export function resultWords(claim: ResultClaim): string {
  const { successes, trials, rate, interval, fieldRate, yardsMean, explosiveCount } = claim;
  const words = [counted({ count: successes, of: trials, share: rate, interval, field: fieldRate })];
  if (yardsMean !== null) words.push(`${yardsMean.toFixed(1)} yards a play on ${claim.yardsPlays}`);
  if (explosiveCount !== null && explosiveCount > 0)
    words.push(`${explosiveCount} of ${claim.explosivePlays} explosive`);
  return words.join('; ');
}
