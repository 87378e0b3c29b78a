import type { DrawnRate } from '#domain/call-sheet/drawn-rate.js';
import { count, fieldShare, interval, rounded } from '../../common/figures.js';
import type { DrawnRateResponse } from './fourth-down.dto.js';

/** A chance of ours, with what it was counted from. */
export function rateResponse({ own, field, share, interval: bounds, isGuess }: DrawnRate): DrawnRateResponse {
  const others = field.known === 0 ? null : { ...field, share: field.count / field.known };
  return { own: count(own), field: fieldShare(others), share: rounded(share), interval: interval(bounds), isGuess };
}
