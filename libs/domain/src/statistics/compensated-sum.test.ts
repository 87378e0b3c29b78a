import fc from 'fast-check';
import { compensatedSum } from './compensated-sum.js';

describe('compensatedSum', () => {
  it('keeps what a plain sum loses', () => {
    const values = [1, 1e100, 1, -1e100];
    expect(values.reduce((sum, value) => sum + value, 0)).toBe(0);
    expect(compensatedSum(values)).toBe(2);
  });

  it('sums a tenth a million times without drift', () => {
    const tenths = Array.from({ length: 1_000_000 }, () => 0.1);
    expect(compensatedSum(tenths)).toBe(100_000);
  });

  it('is exact for integers and 0 for nothing', () => {
    expect(compensatedSum([])).toBe(0);
    fc.assert(
      fc.property(fc.array(fc.integer()), (integers) => {
        expect(compensatedSum(integers)).toBe(integers.reduce((sum, value) => sum + value, 0));
      }),
    );
  });
});
