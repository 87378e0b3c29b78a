import { elementAt } from './element-at.js';

describe('elementAt', () => {
  it('returns the element, also when it is 0 or false', () => {
    expect(elementAt([5, 0], 1)).toBe(0);
    expect(elementAt([false], 0)).toBe(false);
  });

  it.each([-1, 2, 0.5])('refuses the index %d of two elements', (index) => {
    expect(() => elementAt([1, 2], index)).toThrow(RangeError);
  });
});
