import { studentQuantile } from './student-quantile.js';

// Abramowitz & Stegun (1964), Table 26.10, percentage points of the t-distribution; printed to 3 decimals.
const HALF_A_PRINTED_DIGIT = 0.5e-3;

it.each([
  { confidence: 0.9, degreesOfFreedom: 1, point: 6.314 },
  { confidence: 0.95, degreesOfFreedom: 5, point: 2.571 },
  { confidence: 0.9, degreesOfFreedom: 10, point: 1.812 },
  { confidence: 0.99, degreesOfFreedom: 30, point: 2.75 },
])('agrees with the table at $confidence and $degreesOfFreedom', ({ confidence, degreesOfFreedom, point }) => {
  expect(Math.abs(studentQuantile(confidence, degreesOfFreedom) - point)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
});

it('comes to the normal distribution as degrees of freedom grow', () => {
  expect(studentQuantile(0.9, 1_000_000)).toBeCloseTo(1.644854, 5);
});

it('refuses what is no probability, and no degree of freedom', () => {
  expect(() => studentQuantile(1, 3)).toThrow(expect.objectContaining({ code: 'stats.invalid_probability' }));
  expect(() => studentQuantile(0.9, 0)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
});
