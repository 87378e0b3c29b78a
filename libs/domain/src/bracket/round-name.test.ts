import { roundName, stageRoundName } from './round-name.js';

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

describe('the name of a round of a stage', () => {
  it.each([
    ['main', 3, 'final'],
    ['third place', 1, 'third place'],
    ['swiss', 2, 'Swiss round 2'],
    ['group 4', 1, 'group 4, round 1'],
  ])('%s, round %d is "%s"', (stage, round, name) => {
    expect(stageRoundName({ stage, round }, [{ stage: 'main', round: 3 }])).toBe(name);
  });

  it.each([
    ['main', 1, "winners' semifinal"],
    ['losers', 2, "losers' round 2"],
    ['final', 1, 'grand final'],
    ['final', 2, 'second grand final'],
  ])('with a losers\' side, %s, round %d is "%s"', (stage, round, name) => {
    const rounds = [
      { stage: 'main', round: 2 },
      { stage: 'final', round: 1 },
    ];
    expect(stageRoundName({ stage, round }, rounds)).toBe(name);
  });
});
