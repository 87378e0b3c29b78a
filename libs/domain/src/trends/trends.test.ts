import { starterVocabulary } from '../charting/vocabulary.js';
import { trendFigures } from './testing/trend-figures.js';
import { trendLeague } from './testing/trend-league.js';
import { trendWords } from './trend-words.js';
import { trends, type Trends } from './trends.js';

const NOTHING = { adopters: [0, 0, 0], taken: 0, heavyUser: false };
const SPREADS = { adopters: [2, 9, 18], taken: 0.15, heavyUser: false };

function found(settings: typeof NOTHING, seed: number): { trends: Trends; plantedKey: string } {
  const league = trendLeague({ ...settings, seed });
  const input = { ...league, side: 'offense' as const, vocabulary: starterVocabulary(), confidence: 0.9, seed: 1 };
  return { trends: trends(input), plantedKey: league.plantedKey };
}

describe('trends', () => {
  // Larger runs: npm run bench -- calibration trends, in docs/reference/calibration.md.
  it('find hardly anything where players only keep to their habits and games to their plans', () => {
    const { others, naive } = trendFigures(NOTHING, 10, 1);
    expect(others).toBeLessThanOrEqual(2);
    // Plays taken as independent would find something in most of these leagues.
    expect(naive).toBeGreaterThanOrEqual(5);
  });

  it('find a call that a dozen players take up', () => {
    expect(trendFigures(SPREADS, 5, 100).planted).toBeGreaterThanOrEqual(3);
  });

  it('are not made by one heavy user', () => {
    expect(trendFigures({ ...NOTHING, heavyUser: true }, 4, 200).heavy).toBe(0);
  });

  it('count by event who used it, and say so', () => {
    const { trends: all, plantedKey } = found(SPREADS, 104);
    const planted = all.trends.find(({ dimension, value }) => dimension === 'concept' && value[0]?.key === plantedKey);
    expect(planted?.verdict).toBe('rising');
    const uses = planted?.byEvent.reduce((sum, { count }) => sum + count, 0);
    expect(planted?.uses).toHaveLength(uses ?? -1);
    for (const usage of planted?.byEvent ?? []) {
      expect(usage.uses).toHaveLength(usage.count);
      expect(usage.users).toBeLessThanOrEqual(usage.players);
      expect(usage.successes).toBeLessThanOrEqual(usage.trials);
    }
    expect(planted === undefined ? '' : trendWords(planted)).toMatch(
      / is rising: \d+ of \d+, \d+ of \d+, \d+ of \d+; used by/,
    );
  });

  it('are the same for the same seed', () => {
    expect(found(SPREADS, 105)).toEqual(found(SPREADS, 105));
  });

  it('test nothing in a single event', () => {
    const league = trendLeague({ ...NOTHING, seed: 1 });
    const input = { ...league, eventOf: league.eventOf.map(() => 0), events: 1 };
    const result = trends({ ...input, side: 'offense', vocabulary: starterVocabulary(), confidence: 0.9, seed: 1 });
    expect(result).toEqual({ trends: [], tested: 0 });
  });

  it.each([
    [{ confidence: 1 }, 'stats.invalid_probability'],
    [{ seed: -1 }, 'stats.invalid_count'],
  ])('refuse %j with %s', (wrong, code) => {
    const input = {
      ...trendLeague({ ...NOTHING, seed: 1 }),
      side: 'offense' as const,
      vocabulary: starterVocabulary(),
    };
    expect(() => trends({ ...input, confidence: 0.9, seed: 1, ...wrong })).toThrow(expect.objectContaining({ code }));
  });
});
