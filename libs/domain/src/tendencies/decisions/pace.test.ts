import { starterVocabulary } from '../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import { clockTaken } from './pace.js';

const SNAP: PlaySketch = {
  ...{ quarter: 1, drive: 1, down: 1, distance: 10, yardsToGoal: 60, callFamily: 'run' },
  ...{ clockRunning: 'yes', offenseTimeouts: 3, defenseTimeouts: 3 },
};

/** Seconds of each snap; the sketches are in the order in which they were played. */
function taken(...sketches: readonly PlaySketch[]): number[] {
  return [...clockTaken(classifyPlays(chartOf(sketches), starterVocabulary(), DEFAULT_FOOTBALL_SETTINGS))];
}

describe('the time from snap to snap', () => {
  it('is told by a clock that ran from one snap to the very next', () => {
    expect(taken({ ...SNAP, clockSeconds: 300 }, { ...SNAP, clockSeconds: 270 })).toEqual([-1, 30]);
    expect(taken({ ...SNAP, clockSeconds: 300 }, { ...SNAP, clockSeconds: 270, clockRunning: 'no' })).toEqual([-1, -1]);
  });

  const first = { ...SNAP, clockSeconds: 300 };
  const last = { ...SNAP, clockSeconds: 230 };
  const between: Readonly<Record<string, PlaySketch>> = {
    'a kneel': { ...SNAP, clockSeconds: 270, playType: 'kneel', callFamily: 'kneel' },
    'a spike': { ...SNAP, clockSeconds: 270, playType: 'spike' },
    'a dead ball': { ...SNAP, clockSeconds: 270, callFamily: 'no-call', snapResult: 'no-play', foul: 'false-start' },
  };
  it.each(Object.entries(between))('is not one longer pace over %s', (_, play) => {
    expect(taken(first, play, last).at(-1)).toBe(-1);
  });

  it('is no pace after a foul', () => {
    expect(taken({ ...first, foul: 'holding-by-the-offense', foulSide: 'offense' }, last)).toEqual([-1, -1]);
    expect(taken({ ...first, foulSide: 'defense' }, last)).toEqual([-1, -1]);
  });

  it('is no pace over a timeout of either side', () => {
    expect(taken(first, { ...last, offenseTimeouts: 2 })).toEqual([-1, -1]);
    expect(taken(first, { ...last, defenseTimeouts: 2 })).toEqual([-1, -1]);
    expect(taken(first, last)).toEqual([-1, 70]);
  });
});
