import { gatherPlays } from '../charting/play-columns.js';
import { PLAY_FIELDS } from '../charting/play-fields.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../tendencies/classify-plays.js';
import { fieldModel } from '../tendencies/field-model.js';
import { FALLBACK_PRIOR } from '../tendencies/prior.js';
import { chartOf } from '../football/testing/chart-of.js';
import { expectedSnaps } from './expected-snaps.js';
import { queueCells } from './queue-cells.js';

const VOCABULARY = starterVocabulary();

/** First and tens, run or pass called, by the player whose number it is. */
function classified(called: readonly ('run' | 'pass')[]): ReturnType<typeof classifyPlays> {
  const chart = chartOf(
    called.map((call, at) => ({
      ...{ playType: 'scrimmage', quarter: 1 + (at % 2), down: 1, distance: 10, drive: 1, yardsToGoal: 60 },
      called: call,
    })),
  );
  const plays = gatherPlays(
    [{ plays: chart, offense: 'both' }],
    PLAY_FIELDS.map(({ name }) => name),
    (term) => term,
  );
  return classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

describe('what a report would not know yet', () => {
  const field = classified(['run', 'run', 'run', 'pass', 'run', 'run', 'run', 'pass', 'run']);
  const model = fieldModel({
    facts: field,
    side: 'offense',
    vocabulary: VOCABULARY,
    playerOf: new Int32Array(field.counts.length),
    players: 1,
  });
  const ofCalls = (facts: ReturnType<typeof classified>) => {
    const cells = queueCells({ player: 3, meeting: 0.4, facts, fieldModel: model, vocabulary: VOCABULARY });
    return cells.find(
      ({ dimension, situation }) => dimension === 'called' && facts.situationNames[situation] === '1st and 10',
    );
  };
  // The variance of the two-part prior is kept by one concentration: 1/(A + 1) = 0.1/(2 + 1) + 0.9/(20 + 1).
  const { weight, tight, loose } = FALLBACK_PRIOR;
  const prior = 1 / (weight / (loose + 1) + (1 - weight) / (tight + 1)) - 1;

  it('is the variance of the posterior around the field, by hand', () => {
    // Of first and tens but the first snap of the drive the field ran 6 of 8; the player 1 of 2.
    const cell = ofCalls(classified(['pass', 'run', 'pass']));
    const run = (prior * (6 / 8) + 1) / (prior + 2);
    expect(cell).toMatchObject({ player: 3, side: 'offense', meeting: 0.4, known: 2 });
    expect(cell?.weight).toBeCloseTo(prior + 2, 9);
    expect(cell?.variance).toBeCloseTo((2 * run * (1 - run)) / (prior + 3), 9);
  });

  it('is the field alone where nothing of the player is charted', () => {
    const cell = ofCalls(classified([]));
    expect(cell).toMatchObject({ known: 0 });
    expect(cell?.weight).toBeCloseTo(prior, 9);
    expect(cell?.variance).toBeCloseTo((2 * (6 / 8) * (2 / 8)) / (prior + 1), 9);
  });

  it('counts nothing in what the field never saw', () => {
    const cells = queueCells({ player: 0, meeting: 1, facts: field, fieldModel: model, vocabulary: VOCABULARY });
    expect(cells.every(({ dimension }) => dimension === 'called')).toBe(true);
  });
});

describe('expected snaps', () => {
  it('are those of charted games, for one side of the ball', () => {
    const facts = classified(['run', 'pass', 'run', 'pass', 'run']);
    const at = facts.situationNames.indexOf('1st and 10');
    // Five snaps by turns in two quarters, the first of them the first of the drive; two games are four sides.
    expect(expectedSnaps(facts, 2)(1, 1)[at]).toBe(2 / 4);
    expect(expectedSnaps(facts, 2)(1, 2)[at]).toBe(2 / 4);
    expect(expectedSnaps(facts, 2)(3, 1)[at]).toBe(0);
    expect(expectedSnaps(facts, 0)(1, 1)[at]).toBe(0);
  });
});
