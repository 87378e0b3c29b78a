import fc from 'fast-check';
import { starterVocabulary } from '../charting/vocabulary.js';
import { DEFAULT_EXPLOSIVE_THRESHOLDS, explosiveCodes } from './explosive.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';

const VOCABULARY = starterVocabulary();

describe('explosive plays', () => {
  const far = { yardsToGoal: 70 };
  it.each<[string, PlaySketch, number]>([
    ['a run of 12', { ...far, snapResult: 'rushed', yardsGained: 12 }, 1],
    ['a run of 11', { ...far, snapResult: 'rushed', yardsGained: 11 }, 0],
    ['a pass of 16', { ...far, snapResult: 'complete', yardsGained: 16 }, 1],
    ['a pass of 15', { ...far, snapResult: 'complete', yardsGained: 15 }, 0],
    ['a scramble of 12, by the run', { ...far, called: 'pass', snapResult: 'scrambled', yardsGained: 12 }, 1],
    ['an incompletion without yards', { ...far, snapResult: 'incomplete' }, 0],
    ['a sack', { ...far, snapResult: 'sacked', yardsGained: -8 }, 0],
    ['a long run, then a lost fumble', { ...far, snapResult: 'rushed', yardsGained: 30, ledTo: ['fumble-lost'] }, 1],
    ['a called run without a result', { ...far, callFamily: 'run', yardsGained: 12 }, 1],
    ['a called pass without a result between both', { ...far, called: 'pass', yardsGained: 14 }, -1],
    ['an unknown play above both', { ...far, yardsGained: 16 }, 1],
    ['an unknown play below both', { ...far, yardsGained: 11 }, 0],
    ['an unknown gain', { ...far, snapResult: 'rushed' }, -1],
    ['an unknown spot, however long', { snapResult: 'rushed', yardsGained: 60 }, -1],
    ['a touchdown from where the field is too short', { yardsToGoal: 11, snapResult: 'rushed', yardsGained: 11 }, -1],
    ['a run from exactly far enough', { yardsToGoal: 12, snapResult: 'rushed', yardsGained: 12 }, 1],
    ['a pass from 15 out', { yardsToGoal: 15, snapResult: 'complete', yardsGained: 3 }, -1],
    ['a play without a result', { ...far, snapResult: 'no-play', yardsGained: 20 }, -1],
    ['a punt', { ...far, playType: 'punt', yardsGained: 45 }, -1],
  ])('are right for %s', (_what, sketch, expected) => {
    expect([...explosiveCodes(chartOf([sketch]), VOCABULARY, DEFAULT_EXPLOSIVE_THRESHOLDS)]).toEqual([expected]);
  });

  it('do not become fewer when the thresholds fall', () => {
    const someRun = fc.record({
      yardsToGoal: fc.integer({ min: 30, max: 99 }),
      yardsGained: fc.integer({ min: -9, max: 30 }),
      snapResult: fc.constantFrom('rushed', 'complete', 'scrambled'),
    });
    const yards = fc.integer({ min: 2, max: 30 });
    fc.assert(
      fc.property(fc.array(someRun, { minLength: 1 }), yards, yards, (runs, runYards, passYards) => {
        const chart = chartOf(runs);
        const strict = explosiveCodes(chart, VOCABULARY, { version: 2, runYards, passYards });
        const lax = explosiveCodes(chart, VOCABULARY, { version: 3, runYards: runYards - 1, passYards: passYards - 1 });
        strict.forEach((code, play) => {
          expect(lax[play]).toBeGreaterThanOrEqual(code);
        });
      }),
    );
  });

  it.each([0, 100, 12.5])('refuse a threshold of %d yards', (runYards) => {
    const thresholds = { ...DEFAULT_EXPLOSIVE_THRESHOLDS, runYards };
    expect(() => explosiveCodes(chartOf([{}]), VOCABULARY, thresholds)).toThrow(
      expect.objectContaining({ code: 'stats.invalid_count' }),
    );
  });
});
