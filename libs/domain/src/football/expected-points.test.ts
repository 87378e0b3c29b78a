import fc from 'fast-check';
import { DomainError } from '../domain-error.js';
import { firstAndTenPoints, firstAndTenPointsAfterLosingTheBall, PUBLISHED_FIRST_AND_TEN } from './expected-points.js';

describe('expected points of a first and ten', () => {
  // Carter and Machol (1971), Operations Research 19, 541-544, Table I; printed to 3 decimals, kept exactly.
  it.each([
    [95, -1.245],
    [85, -0.637],
    [75, 0.236],
    [65, 0.923],
    [55, 1.538],
    [45, 2.392],
    [35, 3.167],
    [25, 3.681],
    [15, 4.572],
    [5, 6.041],
  ])('are those of Carter and Machol at %i yards to goal', (yardsToGoal, points) => {
    expect(firstAndTenPoints(yardsToGoal)).toBeCloseTo(points, 12);
  });

  // Linear interpolation in the same table by hand; the values are exact to the digits given.
  it.each([
    [50, 1.965],
    [30, 3.424],
    [72, 0.4421],
  ])('are interpolated linearly at %i yards to goal', (yardsToGoal, points) => {
    expect(Math.abs(firstAndTenPoints(yardsToGoal) - points)).toBeLessThanOrEqual(1e-6);
  });

  it('gain 2.931 points on the way from 75 to 35 yards to goal', () => {
    expect(Math.abs(firstAndTenPoints(35) - firstAndTenPoints(75) - 2.931)).toBeLessThanOrEqual(1e-6);
  });

  it('hold the value of the end of the table beyond it', () => {
    expect(firstAndTenPoints(1)).toBe(6.041);
    expect(firstAndTenPoints(0)).toBe(6.041);
    expect(firstAndTenPoints(99)).toBe(-1.245);
    expect(firstAndTenPoints(100)).toBe(-1.245);
  });

  it('never fall on the way to the goal line, and stay inside the table', () => {
    const spot = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(spot, spot, (a, b) => {
        const [nearer, farther] = a <= b ? [a, b] : [b, a];
        expect(firstAndTenPoints(nearer)).toBeGreaterThanOrEqual(firstAndTenPoints(farther) - 1e-12);
        expect(firstAndTenPoints(a)).toBeLessThanOrEqual(6.041);
        expect(firstAndTenPoints(a)).toBeGreaterThanOrEqual(-1.245);
      }),
    );
  });

  it('turn their sign and mirror the field when the ball is lost', () => {
    expect(firstAndTenPointsAfterLosingTheBall(35)).toBeCloseTo(-0.923, 12);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100 }), (spot) => {
        expect(firstAndTenPointsAfterLosingTheBall(spot)).toBeCloseTo(-firstAndTenPoints(100 - spot), 12);
      }),
    );
  });

  it.each([-1, 101, Number.NaN])('refuse %d yards to goal', (yardsToGoal) => {
    expect(() => firstAndTenPoints(yardsToGoal)).toThrow(DomainError);
    expect(() => firstAndTenPoints(yardsToGoal)).toThrow(expect.objectContaining({ code: 'stats.invalid_number' }));
  });

  it('come from a table in the order of the field', () => {
    const spots = PUBLISHED_FIRST_AND_TEN.map((entry) => entry.yardsToGoal);
    expect(spots).toEqual([...spots].sort((a, b) => a - b));
  });
});
