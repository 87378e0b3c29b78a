import { starterVocabulary } from '../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { AskedPlays } from '../decisions/asked-plays.js';
import { DEFAULT_ANNOUNCED, disguiseOf } from './announced-coverages.js';
import { disguise } from './disguise.js';

const VOCABULARY = starterVocabulary();
const asked = (sketches: readonly PlaySketch[]): AskedPlays => ({
  facts: classifyPlays(chartOf(sketches), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS),
  field: null,
  player: -1,
  vocabulary: VOCABULARY,
  confidence: 0.9,
});
const SNAPS = asked([
  { down: 1, shell: 'two-high', coverage: 'cover-2' },
  { down: 1, shell: 'two-high', coverage: 'cover-3-sky' },
  { down: 3, shell: 'two-high', coverage: 'zone' },
  { down: 3, shell: 'one-high', coverage: 'cover-1-robber', preSnapAdjustments: ['disguise-moved-late'] },
  { down: 3, shell: 'late-mover', coverage: 'cover-3', preSnapAdjustments: [] },
  { down: 3, shell: 'one-high' },
]);

describe('shell against coverage played', () => {
  it('knows its own table: every shell and coverage of it is a term', () => {
    for (const [shell, names] of DEFAULT_ANNOUNCED) {
      expect(VOCABULARY.idOfCode(shell)).toBeGreaterThan(0);
      for (const name of names) expect(VOCABULARY.idOfCode(`coverage.${name}`)).toBeGreaterThan(0);
    }
  });

  it('counts a coverage that the shell does not announce, and leaves open what settles nothing', () => {
    const found = disguise(SNAPS);
    expect(found).toMatchObject({ snaps: 6, bothKnown: 5 });
    expect(found.disguised).toMatchObject({ count: 1, known: 3 });
    expect(found.disguised.evidence.references()).toEqual([{ chartIndex: 0, playNumber: 2 }]);
    expect(found.byDown.map(({ disguised }) => [disguised.count, disguised.known])).toEqual([
      [1, 2],
      [0, 0],
      [0, 1],
      [0, 0],
    ]);
    expect(found.byShell[0]).toMatchObject({ shell: { label: 'two high' }, disguised: { count: 1, known: 2 } });
    expect(found.pairs).toHaveLength(5);
  });

  it('keeps late movers apart', () => {
    const { lateMovers, movedLate } = disguise(SNAPS);
    expect(lateMovers).toMatchObject({ count: 1, known: 6 });
    expect(movedLate).toMatchObject({ count: 1, known: 2 });
  });

  it('warns where only successes show the coverage', () => {
    const success: PlaySketch = { down: 1, distance: 10, yardsToGoal: 50, yardsGained: 9, snapResult: 'complete' };
    const failure: PlaySketch = { ...success, yardsGained: 0, snapResult: 'incomplete', shell: 'two-high' };
    const seen: PlaySketch = { ...success, shell: 'two-high', coverage: 'cover-2' };
    const many = [...Array.from({ length: 20 }, () => seen), ...Array.from({ length: 20 }, () => failure)];
    expect(disguise(asked(many)).visibility).toMatchObject({ knownOnSuccesses: 20, knownOnFailures: 0 });
    expect(disguise(SNAPS).visibility).toBeNull();
  });

  it('takes a table of the clan, and says nothing without plays', () => {
    const id = (code: string): number => VOCABULARY.idOfCode(code);
    const table = new Map([['shell.two-high', ['cover-3']]]);
    expect(disguiseOf(id('shell.two-high'), id('coverage.cover-3-sky'), VOCABULARY, table)).toBe(0);
    expect(disguise(asked([])).disguised.raw).toBeNull();
  });
});
