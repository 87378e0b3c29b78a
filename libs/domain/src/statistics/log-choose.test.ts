import { logChoose } from './log-choose.js';

describe('logChoose', () => {
  it.each([
    { from: 5, chosen: 2, ways: 10 },
    { from: 8, chosen: 4, ways: 70 },
    { from: 6, chosen: 0, ways: 1 },
    { from: 20, chosen: 10, ways: 184_756 },
  ])('counts $ways ways to choose $chosen of $from', ({ from, chosen, ways }) => {
    expect(Math.exp(logChoose(from, chosen)) / ways).toBeCloseTo(1, 12);
  });

  it('refuses to choose more than there are', () => {
    expect(() => logChoose(3, 5)).toThrow(expect.objectContaining({ code: 'stats.invalid_number' }));
  });
});
