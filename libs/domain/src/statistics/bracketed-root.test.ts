import fc from 'fast-check';
import { bracketedRoot } from './bracketed-root.js';

describe('bracketedRoot', () => {
  it.each([
    { name: 'x² - 2', evaluate: (x: number) => x ** 2 - 2, low: 0, high: 2, root: Math.SQRT2 },
    { name: 'eˣ - 5', evaluate: (x: number) => Math.exp(x) - 5, low: -20, high: 20, root: Math.log(5) },
    { name: 'a step at 0.3', evaluate: (x: number) => (x < 0.3 ? -1 : 1), low: 0, high: 1, root: 0.3 },
    { name: 'a flat cubic', evaluate: (x: number) => (x - 1) ** 3, low: -4, high: 9, root: 1 },
  ])('finds the root of $name', ({ evaluate, low, high, root }) => {
    expect(Math.abs(bracketedRoot(evaluate, low, high, 1e-12) - root)).toBeLessThanOrEqual(1e-12);
  });

  it('accepts a root at either end', () => {
    expect(bracketedRoot((x) => x, 0, 1, 1e-9)).toBe(0);
    expect(bracketedRoot((x) => x - 1, 0, 1, 1e-9)).toBe(1);
  });

  it('finds the root of any increasing cubic, from either direction', () => {
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (root) => {
        const evaluate = (x: number): number => (x - root) * ((x - root) ** 2 + 1);
        expect(Math.abs(bracketedRoot(evaluate, -10, 10, 1e-10) - root)).toBeLessThanOrEqual(1e-10);
        expect(Math.abs(bracketedRoot(evaluate, 10, -10, 1e-10) - root)).toBeLessThanOrEqual(1e-10);
      }),
    );
  });

  it('needs few evaluations where the function is smooth', () => {
    let evaluations = 0;
    bracketedRoot((x) => ((evaluations += 1), Math.exp(x) - 5), 0, 4, 1e-12);
    expect(evaluations).toBeLessThan(16);
  });

  it('refuses a bracket without a change of sign', () => {
    const refusal = expect.objectContaining({ code: 'stats.no_convergence' });
    expect(() => bracketedRoot((x) => x ** 2 + 1, -1, 1, 1e-9)).toThrow(refusal);
    expect(() => bracketedRoot(() => Number.NaN, -1, 1, 1e-9)).toThrow(refusal);
  });
});
