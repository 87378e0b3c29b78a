import fc from 'fast-check';
import { retryDelay } from './retry-schedule.js';

const SECOND = 1_000;
const HOUR = 3_600_000;

// Standard Webhooks 1.0.0, "Deliverability and reliability": time since start of each attempt after the first, in seconds.
const SINCE_START = [5, 305, 2_105, 9_305, 27_305, 63_305, 113_705, 185_705, 272_105];

it('without jitter keeps the example schedule of Standard Webhooks, and then gives up', () => {
  let since = 0;
  const starts = SINCE_START.map((_, at) => (since += retryDelay(at + 1, 0, 0) ?? NaN) / SECOND);
  expect(starts).toEqual(SINCE_START);
  expect(retryDelay(SINCE_START.length + 1, 0, 0)).toBeNull();
});

it('is up to a fifth later, later still when the receiver asks for it, and by that never more than a day', () => {
  const attempts = fc.integer({ min: 1, max: SINCE_START.length });
  const random = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
  fc.assert(
    fc.property(attempts, fc.integer({ min: 0, max: 1_000 * HOUR }), random, (attempt, asked, chance) => {
      const [least, found] = [retryDelay(attempt, 0, 0) ?? NaN, retryDelay(attempt, asked, chance) ?? NaN];
      expect(found).toBeGreaterThanOrEqual(Math.max(least, Math.min(asked, 24 * HOUR)));
      expect(found).toBeLessThanOrEqual(Math.max(1.2 * least + 1, Math.min(asked, 24 * HOUR)));
    }),
  );
});
