import { roundName } from './round-name.js';

describe('the name of a round', () => {
  it.each([
    [1, 1, 'final'],
    [2, 3, 'semifinal'],
    [1, 3, 'quarter-final'],
    [1, 4, 'round of 16'],
    [1, 6, 'round of 64'],
  ])('round %d of %d is the %s', (round, rounds, name) => {
    expect(roundName(round, rounds)).toBe(name);
  });

  it('refuses a round beyond the last', () => {
    expect(() => roundName(4, 3)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});
