import { starterVocabulary } from '../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { AskedPlays } from '../decisions/asked-plays.js';
import { pointOfAttack } from './point-of-attack.js';

const VOCABULARY = starterVocabulary();
const RUN: PlaySketch = { down: 1, distance: 10, yardsToGoal: 50, callFamily: 'run', snapResult: 'rushed' };
const facts = classifyPlays(
  chartOf([
    { ...RUN, designedSide: 'left', actualSide: 'left', offDesign: 'no', yardsGained: 6, front: 'four-down' },
    {
      ...RUN,
      designedSide: 'left',
      actualSide: 'middle',
      offDesign: 'forced by a set edge',
      yardsGained: 1,
      front: 'four-down',
    },
    {
      ...RUN,
      designedSide: 'right',
      actualSide: 'left',
      offDesign: 'read by design',
      yardsGained: 4,
      pressureSide: 'left',
    },
    { ...RUN, designedSide: 'right', designedGap: 'b-gap', actualGap: 'c-gap', yardsGained: 4 },
    { ...RUN, playType: 'punt', offDesign: 'forced by penetration' },
  ]),
  VOCABULARY,
  DEFAULT_FOOTBALL_SETTINGS,
);
const asked: AskedPlays = { facts, field: null, player: -1, vocabulary: VOCABULARY, confidence: 0.9 };

describe('point of attack', () => {
  const found = pointOfAttack(asked);

  it('counts what was forced where that is known; a read is not forced, a kick is no snap', () => {
    expect(found.all).toMatchObject({ snaps: 4, forced: { count: 1, known: 3 } });
    expect(found.all.forced.evidence.places()).toEqual([1]);
    expect(found.otherSide).toMatchObject({ count: 2, known: 3 });
  });

  it('gives results forced and not, and the price', () => {
    expect(found.all.whenForced).toMatchObject({ trials: 1, successes: 0, yards: { mean: 1 } });
    expect(found.all.whenNot).toMatchObject({ trials: 2, successes: 2, yards: { mean: 5 } });
    expect(found.all.price?.upper).toBeLessThan(0);
  });

  it('sets what was meant against what came of it, and splits by front and pressure side', () => {
    expect(found.gaps.map(({ meant, went, count }) => [meant.label, went.label, count])).toEqual([
      ['B gap', 'C gap', 1],
    ]);
    expect(found.sides.reduce((sum, { count }) => sum + count, 0)).toBe(3);
    expect(found.causes.map(({ share }) => share.known)).toEqual([3, 3, 3]);
    expect(found.byFront.map(({ value, forced }) => [value?.label, forced.count, forced.known])).toEqual([
      ['four down', 1, 2],
    ]);
    expect(found.byPressureSide.map(({ value, snaps }) => [value?.label, snaps])).toEqual([['left', 1]]);
  });

  it('holds it against the field, the own plays left out', () => {
    const field = { facts, playerOf: Int32Array.of(0, 1, 1, 1, 1) };
    expect(pointOfAttack({ ...asked, field, player: 0 }).all.forced.field).toMatchObject({ count: 1, known: 2 });
  });

  it('is empty for a player without plays', () => {
    const nobody = pointOfAttack({
      ...asked,
      facts: classifyPlays(chartOf([]), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS),
    });
    expect(nobody).toMatchObject({ causes: [], sides: [], gaps: [], byFront: [] });
    expect(nobody.all.forced.raw).toBeNull();
    expect(nobody.all.price).toBeNull();
  });
});
