import { starterVocabulary } from '../charting/vocabulary.js';
import { DEFAULT_EXPECTED_POINTS, fitExpectedPoints } from '../football/expected-points-chain.js';
import { chartedRows } from '../tendencies/charted-rows.js';
import { drawnRate, tallied, type DrawnRate } from './drawn-rate.js';
import { fourthDownAdvice, type FourthDown } from './fourth-down.js';
import { fourthDownWords } from './fourth-down-words.js';
import { CONVERSION_BANDS, KICK_BANDS, type OurFigures } from './our-figures.js';

// The published table alone: no play was seen, so that the chain is its prior.
const CHAIN = fitExpectedPoints(chartedRows([]), starterVocabulary(), DEFAULT_EXPECTED_POINTS);

const rate = (share: number, isGuess = false): DrawnRate => ({
  own: { count: 4, known: 8 },
  field: { count: 40, known: 80 },
  share,
  interval: { lower: share - 0.02, upper: share + 0.02 },
  isGuess,
});
const FIGURES: OurFigures = {
  conversions: CONVERSION_BANDS.map(({ guess }) => rate(guess)),
  kicks: KICK_BANDS.map(({ guess }) => rate(guess)),
  twoPoint: rate(0.45),
  tryKick: rate(0.95),
  onside: rate(0.1, true),
  drives: { touchdown: rate(0.25), fieldGoal: rate(0.15) },
  puntNet: { mean: 38, of: 60, isGuess: false },
  secondsADrive: { mean: 100, of: 200, isGuess: false },
};
const PLAIN: FourthDown = { distance: 1, yardsToGoal: 50, scoreDifference: null, secondsLeft: null, timeouts: 0 };
const adviceOn = (situation: Partial<FourthDown>) => fourthDownAdvice(FIGURES, CHAIN, { ...PLAIN, ...situation });

describe('a fourth down of ours', () => {
  // Romer (2006), J. Polit. Econ. 114, 340–365, from memory: past midfield going for a short distance pays, and ten to go on
  // one's own ten is no place for it.
  it('goes for one at their forty, and punts ten from its own ten', () => {
    expect(adviceOn({ yardsToGoal: 40 }).best).toBe('go');
    expect(adviceOn({ distance: 10, yardsToGoal: 90 }).best).toBe('punt');
  });

  it('is worth the chance of what follows, by hand', () => {
    const { choices } = adviceOn({ distance: 2, yardsToGoal: 38 });
    const [go, kick] = (['go', 'kick'] as const).map((name) => choices.find(({ choice }) => choice === name));
    const fails = -CHAIN.points(1, 10, 62);
    expect(go?.points).toBeCloseTo(0.55 * CHAIN.points(1, 10, 36) + 0.45 * fails, 9);
    expect(kick?.points).toBeCloseTo(0.42 * 3 + 0.58 * fails, 9);
  });

  it('does not kick where that leaves us behind with no drive of ours to come', () => {
    const late = { distance: 5, yardsToGoal: 20, scoreDifference: -4, secondsLeft: 60, timeouts: 1 };
    expect(adviceOn({ distance: 5, yardsToGoal: 20 }).best).toBe('kick');
    const advice = adviceOn(late);
    expect(advice.best).toBe('go');
    expect(advice.drivesLeft).toBeCloseTo(1 + 85 / 100, 9);
    expect(fourthDownWords(advice, { ...PLAIN, ...late })).toMatch(
      /^go; kick is worth \d\.\d points \(ours 4 of 8, field 40 of 80; it leaves you 1 behind\).*; guessed: what a timeout saves, /,
    );
  });

  it('says where two are as good as equal', () => {
    const near = KICK_BANDS.map(() => rate(0.5));
    const go = adviceOn({ distance: 5, yardsToGoal: 20 }).choices.find(({ choice }) => choice === 'go');
    const fails = -CHAIN.points(1, 10, 80);
    const equal = ((go?.points ?? 0) - fails) / (3 - fails);
    const figures = { ...FIGURES, kicks: near.map((one) => ({ ...one, share: equal })) };
    expect(fourthDownAdvice(figures, CHAIN, { ...PLAIN, distance: 5, yardsToGoal: 20 }).best).toBeNull();
  });

  it.each([{ distance: 0 }, { yardsToGoal: 100 }, { timeouts: 4 }])('refuses %j', (wrong) => {
    expect(() => adviceOn(wrong)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});

describe('a chance of ours', () => {
  const attempts = (good: readonly (readonly number[])[]) => {
    const outcomes = good.flatMap((own, player) => own.map((outcome) => ({ player, outcome })));
    return {
      offenseOf: Int32Array.from(outcomes, ({ player }) => player),
      of: (play: number): number => outcomes[play]?.outcome ?? -1,
    };
  };
  const HALF = [1, 0, 1, 0, 1, 0, 1, 0];

  it('lies between ours and the field, and nobody left of it is a guess', () => {
    const { offenseOf, of } = attempts([[1, 1, 1, 1], HALF, HALF, HALF]);
    const drawn = drawnRate(tallied({ offenseOf, players: 4 }, of), { player: 0, confidence: 0.9 }, 0.5);
    expect(drawn).toMatchObject({ own: { count: 4, known: 4 }, field: { count: 12, known: 24 }, isGuess: false });
    expect(drawn.share).toBeGreaterThan(0.5);
    expect(drawn.share).toBeLessThan(1);
    expect(drawn.interval.lower).toBeLessThan(drawn.share);
  });

  it('is what was believed before where nobody tried', () => {
    const drawn = drawnRate(
      tallied({ offenseOf: new Int32Array(0), players: 2 }, () => -1),
      { player: -1, confidence: 0.9 },
      0.3,
    );
    expect(drawn).toMatchObject({ share: 0.3, isGuess: true });
  });
});
