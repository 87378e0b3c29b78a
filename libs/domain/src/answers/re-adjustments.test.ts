import { starterVocabulary } from '../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../tendencies/classify-plays.js';
import { reAdjustments, type Adjustment } from './re-adjustments.js';

const SNAP: PlaySketch = { down: 1, distance: 10, yardsToGoal: 60, callFamily: 'run', snapResult: 'rushed' };
/** By the defense, by the offense. */
const [SHIFT, FLIP] = ['line-shifted', 'play-mirrored'];
const moves = (yardsGained: number, ...preSnapAdjustments: string[]): PlaySketch => ({
  ...{ ...SNAP, yardsGained, preSnapAdjustments },
});

function of(side: 'offense' | 'defense', sketches: readonly PlaySketch[]): Adjustment[] {
  const vocabulary = starterVocabulary();
  const facts = classifyPlays(chartOf(sketches), vocabulary, DEFAULT_FOOTBALL_SETTINGS);
  return reAdjustments({ facts, field: null, player: -1, vocabulary, confidence: 0.9 }, side);
}

describe('what an opponent does once our move is seen', () => {
  const duels = [
    moves(6, SHIFT, FLIP),
    moves(0, SHIFT, FLIP, SHIFT),
    moves(2, SHIFT),
    // Opened by the opponent itself: no answer to a move of ours.
    moves(9, FLIP, SHIFT),
    moves(4),
  ];

  it('is told by counts, with what was done about it, two steps deep', () => {
    const [shown, ...others] = of('offense', duels);
    expect(others).toEqual([]);
    expect(shown).toMatchObject({ shown: { by: 'defense', label: 'line shifted' }, plays: 3, snapped: 1 });
    const [answer] = shown?.answers ?? [];
    expect(answer).toMatchObject({ answer: { by: 'offense', label: 'play mirrored' }, snapped: 1 });
    expect(answer?.share).toMatchObject({ count: 2, known: 3 });
    expect(answer?.results).toMatchObject({ trials: 2, successes: 1 });
    const [then] = answer?.then ?? [];
    expect(then).toMatchObject({ move: { by: 'defense', label: 'line shifted' }, share: { count: 1, known: 2 } });
    expect(then?.results).toMatchObject({ trials: 1, successes: 0 });
  });

  it('of a defense begins with a move of the offense', () => {
    const [shown] = of('defense', duels);
    expect(shown).toMatchObject({ shown: { by: 'offense' }, plays: 1, snapped: 0 });
    expect(shown?.answers[0]).toMatchObject({ answer: { by: 'defense' }, share: { count: 1, known: 1 }, then: [] });
  });

  it('is nothing where no duel was opened by us', () => {
    expect(of('offense', [moves(9, FLIP), moves(4), SNAP])).toEqual([]);
  });
});
