import { starterVocabulary } from '../charting/vocabulary.js';
import { CALLED_NAMES, calledCodes } from './called.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';

const VOCABULARY = starterVocabulary();

function calledOn(sketch: PlaySketch): 'run' | 'pass' | 'unknown' {
  return CALLED_NAMES[calledCodes(chartOf([sketch]), VOCABULARY)[0] ?? -1] ?? 'unknown';
}

describe('run or pass called', () => {
  it.each<[string, PlaySketch, 'run' | 'pass' | 'unknown']>([
    [
      'what the chart says, over everything',
      { called: 'run', callFamily: 'dropback-pass', snapResult: 'sacked' },
      'run',
    ],
    ['the family', { callFamily: 'screen' }, 'pass'],
    ['a designed quarterback run', { callFamily: 'designed-quarterback-run', snapResult: 'rushed' }, 'run'],
    ['the concept where the family is unknown', { concept: 'counter' }, 'run'],
    ['a sack', { snapResult: 'sacked' }, 'pass'],
    ['a scramble', { snapResult: 'scrambled' }, 'pass'],
    ['a drop, which is an incompletion', { snapResult: 'dropped' }, 'pass'],
    ['a designed run by its result', { snapResult: 'rushed' }, 'run'],
    ['a gadget by its result', { callFamily: 'gadget', snapResult: 'complete' }, 'pass'],
    ['nothing known', {}, 'unknown'],
    ['an aborted snap', { snapResult: 'aborted-snap' }, 'unknown'],
    ['a run-pass option, whatever came of it', { callFamily: 'run-pass-option', snapResult: 'rushed' }, 'unknown'],
    ['a flagged run-pass option with a run concept', { runPassOption: 'yes', concept: 'inside-zone' }, 'unknown'],
    ['a flagged run-pass option charted as a run', { runPassOption: 'yes', callFamily: 'run' }, 'run'],
    ['a run-pass option that the chart calls', { callFamily: 'run-pass-option', called: 'pass' }, 'pass'],
    ['a kick, even a faked one', { playType: 'punt', fake: 'yes', snapResult: 'rushed' }, 'unknown'],
    ['a kneel', { playType: 'kneel', snapResult: 'rushed' }, 'unknown'],
    ['a two-point try', { playType: 'two-point try', callFamily: 'quick-pass' }, 'pass'],
  ])('is right for %s', (_what, sketch, expected) => {
    expect(calledOn(sketch)).toBe(expected);
  });

  it('keeps the plays of a batch apart', () => {
    const chart = chartOf([{ callFamily: 'run' }, {}, { concept: 'counter' }, { callFamily: 'screen' }]);
    expect([...calledCodes(chart, VOCABULARY)]).toEqual([0, -1, 0, 1]);
  });
});
