import { clockSituationCodes, DEFAULT_CLOCK_SETTINGS } from './clock-situations.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';

function clockSituation(sketch: PlaySketch, quarterSeconds: number): string | null {
  const { codes, names } = clockSituationCodes(chartOf([sketch]), DEFAULT_CLOCK_SETTINGS, quarterSeconds);
  return names[codes[0] ?? -1] ?? null;
}

describe('situations by clock and score', () => {
  it.each([
    { quarter: 1, clockSeconds: 60, scoreDifference: 0, expected: 'normal' },
    { quarter: 2, clockSeconds: 121, scoreDifference: 3, expected: 'normal' },
    { quarter: 2, clockSeconds: 120, scoreDifference: 3, expected: 'two-minute before the half' },
    { quarter: 3, clockSeconds: 10, scoreDifference: -3, expected: 'normal' },
    { quarter: 4, clockSeconds: 120, scoreDifference: -3, expected: 'two-minute trailing' },
    { quarter: 4, clockSeconds: 120, scoreDifference: 0, expected: 'two-minute tied' },
    { quarter: 4, clockSeconds: 240, scoreDifference: 3, expected: 'four-minute ahead' },
    { quarter: 4, clockSeconds: 241, scoreDifference: 3, expected: 'normal' },
    { quarter: 4, clockSeconds: 240, scoreDifference: -3, expected: 'normal' },
    { quarter: 5, clockSeconds: 100, scoreDifference: 0, expected: 'overtime' },
  ])('say $expected in quarter $quarter at $clockSeconds s and $scoreDifference points', ({ expected, ...sketch }) => {
    expect(clockSituation(sketch, 900)).toBe(expected);
  });

  it('scale two minutes to the length of the quarter', () => {
    expect(clockSituation({ quarter: 2, clockSeconds: 48, scoreDifference: 0 }, 360)).toBe(
      'two-minute before the half',
    );
    expect(clockSituation({ quarter: 2, clockSeconds: 49, scoreDifference: 0 }, 360)).toBe('normal');
  });

  it.each([
    // One possession left: the current or next one.
    { clockSeconds: 60, scoreDifference: -8, expected: 'two-minute trailing' },
    { clockSeconds: 60, scoreDifference: -9, expected: 'out of reach' },
    { clockSeconds: 60, scoreDifference: 9, expected: 'out of reach' },
    // Two: 300 s are two possessions' time, one for each side.
    { clockSeconds: 300, scoreDifference: -16, expected: 'normal' },
    { clockSeconds: 300, scoreDifference: -17, expected: 'out of reach' },
    { clockSeconds: 299, scoreDifference: -16, expected: 'out of reach' },
  ])('weigh $scoreDifference points against possessions at $clockSeconds s', ({ expected, ...sketch }) => {
    expect(clockSituation({ quarter: 4, ...sketch }, 900)).toBe(expected);
  });

  it.each<PlaySketch>([
    { clockSeconds: 60, scoreDifference: 0 },
    { quarter: 2, scoreDifference: 0 },
    { quarter: 2, clockSeconds: 60 },
  ])('are unknown when a part is: %j', (sketch) => {
    expect(clockSituation(sketch, 900)).toBeNull();
  });

  it.each([0, -1, Number.NaN])('refuse a quarter of %d seconds', (quarterSeconds) => {
    expect(() => clockSituation({}, quarterSeconds)).toThrow(expect.objectContaining({ code: 'stats.invalid_number' }));
  });
});
