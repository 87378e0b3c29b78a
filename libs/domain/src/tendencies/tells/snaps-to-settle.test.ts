import type { TwoByTwo } from '../../statistics/two-by-two.js';
import { snapsToSettle } from './snaps-to-settle.js';

const TEST = { level: 0.05, power: 0.8 };

/** Twelve of twenty with the cue, eight of twenty without it. */
const LEAD: TwoByTwo = [
  [12, 8],
  [8, 12],
];

it('is the sample size of a comparison of two shares, less what was seen', () => {
  // Lachin (1981): n a group = (1.95996 sqrt(2 × 0.5 × 0.5) + 0.84162 sqrt(2 × 0.6 × 0.4))² / 0.2² = 96.87 (0.6 against
  // 0.4). The hypergeometric variance has n - 1 for n: 1.95996 sqrt(0.5 × 40 / 39), which makes 98.55, and 20 are there.
  expect(snapsToSettle([LEAD], TEST)).toBe(79);
});

it('asks for the same plays of many small groups with the same balance', () => {
  const half: TwoByTwo = [
    [6, 4],
    [4, 6],
  ];
  const whole = snapsToSettle([LEAD], TEST) ?? 0;
  const halves = snapsToSettle([half, half], TEST) ?? 0;
  expect(halves).toBeGreaterThanOrEqual(whole);
  expect(halves).toBeLessThan(1.1 * whole);
});

it('asks for more at a stricter level, at a higher power and for a smaller effect', () => {
  const usual = snapsToSettle([LEAD], TEST) ?? 0;
  expect(snapsToSettle([LEAD], { ...TEST, level: 0.001 })).toBeGreaterThan(usual);
  expect(snapsToSettle([LEAD], { ...TEST, power: 0.95 })).toBeGreaterThan(usual);
  const smaller: TwoByTwo = [
    [11, 9],
    [9, 11],
  ];
  expect(snapsToSettle([smaller], TEST)).toBeGreaterThan(usual);
});

it('has no answer where the call does not go with the cue, or nothing can be compared', () => {
  const nothing: TwoByTwo = [
    [5, 5],
    [5, 5],
  ];
  const alone: TwoByTwo = [
    [5, 5],
    [0, 0],
  ];
  expect(snapsToSettle([nothing], TEST)).toBeNull();
  expect(snapsToSettle([alone], TEST)).toBeNull();
});

it('refuses levels and powers outside (0, 1)', () => {
  expect(() => snapsToSettle([LEAD], { ...TEST, level: 0 })).toThrow(
    expect.objectContaining({ code: 'stats.invalid_probability' }),
  );
  expect(() => snapsToSettle([LEAD], { ...TEST, power: 1 })).toThrow(
    expect.objectContaining({ code: 'stats.invalid_probability' }),
  );
});
