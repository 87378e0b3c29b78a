import { starterVocabulary } from '../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { AskedPlays } from '../decisions/asked-plays.js';
import { DEFAULT_LEFT_AREAS } from './left-areas.js';
import { manualDefender } from './manual-defender.js';

const VOCABULARY = starterVocabulary();
const asked = (sketches: readonly PlaySketch[]): AskedPlays => ({
  facts: classifyPlays(chartOf(sketches), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS),
  field: null,
  player: -1,
  vocabulary: VOCABULARY,
  confidence: 0.9,
});
const SNAP: PlaySketch = { down: 3, distance: 8, yardsToGoal: 50, manualDefenderStart: 'middle-linebacker' };
const THROWN: PlaySketch = {
  ...SNAP,
  manualDefenderAction: 'rushes',
  snapResult: 'complete',
  targetZone: 'middle',
  targetDepth: 'short',
};

describe('the manually controlled defender', () => {
  const found = manualDefender(
    asked([
      { ...THROWN, yardsGained: 9, concept: 'mesh' },
      { ...THROWN, targetZone: 'flat', yardsGained: 2 },
      { ...THROWN, targetDepth: 'deep', yardsGained: 30 },
      { ...SNAP, manualDefenderAction: 'rushes', snapResult: 'sacked' },
      { ...SNAP, manualDefenderAction: 'plays-on-the-line', targetZone: 'middle', targetDepth: 'short' },
      SNAP,
    ]),
  );

  it('is counted by start and by action, in all and by situation, on the snaps that know it', () => {
    const [all, third] = found.situations;
    expect(all?.snaps).toBe(6);
    expect(all?.starts[0]?.share).toMatchObject({ count: 6, known: 6 });
    expect(all?.actions.map(({ value, share }) => [value.label, share.count, share.known])).toEqual([
      ['rushes', 4, 5],
      ['plays on the line', 1, 5],
    ]);
    expect(third?.situation).toBe('3rd and 7-10');
    expect(found.together[0]).toMatchObject({ count: 4, start: { label: 'middle linebacker' } });
  });

  it('leaves an area, and what was thrown there is counted where zone and depth are known', () => {
    expect(found.openings).toHaveLength(1);
    const [rush] = found.openings;
    expect(rush?.area.name).toBe('short middle');
    expect(rush?.hits).toMatchObject({ count: 1, known: 3 });
    expect(rush?.whenHit).toMatchObject({ trials: 1, successes: 1 });
    expect(rush?.elsewhere).toMatchObject({ trials: 2, yards: { mean: 16 } });
    expect(rush?.concepts.map(({ value, share }) => [value.label, share.count])).toEqual([['mesh', 1]]);
    expect(rush?.hits.evidence.places()).toEqual([0]);
  });

  it('knows its own table: every action, zone and depth of it is a term', () => {
    for (const [action, { zones, depths }] of DEFAULT_LEFT_AREAS) {
      expect(VOCABULARY.idOfCode(`manualDefenderAction.${action}`)).toBeGreaterThan(0);
      for (const zone of zones) expect(VOCABULARY.idOfCode(`targetZone.${zone}`)).toBeGreaterThan(0);
      for (const depth of depths) expect(VOCABULARY.idOfCode(`targetDepth.${depth}`)).toBeGreaterThan(0);
    }
  });

  it('says nothing where nothing was seen', () => {
    expect(manualDefender(asked([{ down: 1, distance: 10 }]))).toMatchObject({ together: [], openings: [] });
  });
});
