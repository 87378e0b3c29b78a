import { gatherPlays } from '../charting/play-columns.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { countsForCalls, countsForResults } from './counted-snaps.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';

const VOCABULARY = starterVocabulary();

const COUNTED = { calls: 1, results: 1 };
const OUT = { calls: 0, results: 0 };
const CALL_ONLY = { calls: 1, results: 0 };

describe('what counts', () => {
  it.each<[string, PlaySketch, { calls: number; results: number }]>([
    ['a play from scrimmage', { snapResult: 'rushed', yardsGained: 3 }, COUNTED],
    ['a play nothing else is known of', {}, COUNTED],
    ['a kneel by its type', { playType: 'kneel' }, OUT],
    ['a kneel by its family', { callFamily: 'kneel' }, OUT],
    ['a kneel by its result', { snapResult: 'knelt' }, OUT],
    ['a spike', { playType: 'spike' }, OUT],
    ['a punt', { playType: 'punt' }, OUT],
    ['a faked punt', { playType: 'punt', fake: 'yes', snapResult: 'rushed' }, OUT],
    ['a kickoff', { playType: 'kickoff' }, OUT],
    ['a two-point try', { playType: 'two-point try', callFamily: 'quick-pass' }, OUT],
    ['a snap dead before it began, by its family', { callFamily: 'no-call', snapResult: 'no-play' }, OUT],
    ['a false start without a time', { foul: 'false-start', foulAnswer: 'accepted', snapResult: 'no-play' }, OUT],
    [
      'a foul before the snap',
      { foul: 'too-many-men', foulTiming: 'before the snap', foulAnswer: 'accepted', snapResult: 'no-play' },
      OUT,
    ],
    [
      'a foul before the snap that was declined, and the play run',
      { foul: 'neutral-zone-infraction', foulAnswer: 'declined', snapResult: 'complete', yardsGained: 40 },
      COUNTED,
    ],
    [
      'a snap replayed after a foul',
      {
        callFamily: 'run',
        foul: 'holding-by-the-offense',
        foulTiming: 'after the snap',
        foulAnswer: 'accepted',
        replayed: 'yes',
        snapResult: 'rushed',
      },
      CALL_ONLY,
    ],
    ['no play', { callFamily: 'run', snapResult: 'no-play' }, CALL_ONLY],
    ['offset fouls', { callFamily: 'run', foulAnswer: 'offset', snapResult: 'complete' }, CALL_ONLY],
    ['a declined foul', { foulAnswer: 'declined', snapResult: 'complete' }, COUNTED],
    ['a foul added to the play', { foulAnswer: 'accepted', replayed: 'no', yardsGained: 8 }, COUNTED],
    ['an accepted foul after a charted result', { foulAnswer: 'accepted', snapResult: 'complete' }, COUNTED],
    ['an accepted foul and no result', { foulAnswer: 'accepted', callFamily: 'run' }, CALL_ONLY],
    ['an aborted snap', { snapResult: 'aborted-snap', yardsGained: -9 }, { calls: 0, results: 1 }],
    ['an aborted call', { callFamily: 'aborted' }, { calls: 0, results: 1 }],
  ])('is right for %s', (_what, sketch, expected) => {
    const chart = chartOf([sketch]);
    expect({
      calls: countsForCalls(chart, VOCABULARY)[0],
      results: countsForResults(chart, VOCABULARY)[0],
    }).toEqual(expected);
  });

  it('is refused for a batch that was gathered without its play types', () => {
    const batch = gatherPlays([{ plays: chartOf([{ yardsGained: 3 }]), offense: 'both' }], ['yardsGained'], (id) => id);
    const refusal = expect.objectContaining({ code: 'football.play_type_missing' });
    expect(() => countsForCalls(batch, VOCABULARY)).toThrow(refusal);
    expect(() => countsForResults(batch, VOCABULARY)).toThrow(refusal);
  });

  it('is nothing for no plays', () => {
    expect(countsForCalls(chartOf([]), VOCABULARY)).toHaveLength(0);
  });
});
