import { starterVocabulary } from '../../charting/vocabulary.js';
import type { PlaySketch } from '../../football/testing/chart-of.js';
import type { Side } from '../tendency-plays.js';
import { CUE_FACTS, CUE_NAMES, type CueName } from './cue-names.js';
import { cueSeconds } from './cue-seconds.js';
import { readCuePairs, readCues, type Cue } from './cues.js';
import { gamesOf } from './testing/games-of.js';

const VOCABULARY = starterVocabulary();

function labelsOf(side: Side, name: CueName, plays: readonly PlaySketch[]): (string | null)[] {
  const cue = readCues(side, gamesOf([plays]), VOCABULARY).find(({ names }) => names[0] === name);
  return cue === undefined ? [] : labels(cue);
}

function labels({ codes, values }: Cue): (string | null)[] {
  return Array.from(codes, (code) => values[code]?.label ?? null);
}

it('takes no motion for a value and an uncharted one for none', () => {
  expect(labelsOf('offense', 'motion', [{ motion: 'none' }, {}, { motion: 'jet' }])).toEqual(['none', null, 'jet']);
});

it('reads fixed words as they stand', () => {
  expect(labelsOf('offense', 'strength', [{ strength: 'balanced' }, {}])).toEqual(['balanced', null]);
  expect(labelsOf('offense', 'hash', [{ hash: 'middle' }])).toEqual(['middle']);
});

it('reads the wait at the line in bands, and not where the times contradict each other', () => {
  const wait = (lineUpSecond: number, snapSecond: number): PlaySketch => ({ lineUpSecond, snapSecond });
  const plays = [wait(10, 13), wait(10, 14), wait(10, 24), wait(10, 25), wait(10, 9), wait(10, 90), { snapSecond: 5 }];
  const expected = ['3 seconds or fewer', '4 to 7 seconds', '8 to 14 seconds', '15 seconds or more', null, null, null];
  expect(labelsOf('offense', 'lineUpWait', plays)).toEqual(expected);
  expect(labelsOf('defense', 'lineUpWait', plays)).toEqual(expected);
});

it('reads the cushion from the adjustments: a corner who will bail shows press', () => {
  const adjusted = (...alignmentAdjustments: string[]): PlaySketch => ({ alignmentAdjustments });
  const plays = [
    adjusted('corners-press'),
    adjusted('line-tightens', 'corners-off'),
    adjusted('corner-bails'),
    adjusted('corners-press', 'corner-bails'),
    adjusted('corners-press', 'corners-off'),
    adjusted('line-tightens'),
    adjusted('no-adjustment'),
    {},
  ];
  const expected = ['press', 'off', 'press', 'press', 'several of these', 'none', 'none', null];
  expect(labelsOf('defense', 'cushion', plays)).toEqual(expected);
});

it('takes what is seen only after the snap for no cue', () => {
  expect(labelsOf('defense', 'linemen', [{ alignmentAdjustments: ['line-slants'] }])).toEqual(['none']);
});

it('reads shell, box and the start of the manually controlled defender', () => {
  const plays = [{ shell: 'two-high', boxCount: 8 }, {}];
  expect(labelsOf('defense', 'shell', plays)).toEqual(['two high', null]);
  expect(labelsOf('defense', 'boxCount', plays)).toEqual(['eight or more in the box', null]);
  expect(labelsOf('defense', 'manualDefenderStart', plays)).toEqual([null, null]);
});

it('reads every cue of a batch that knows nothing, without a play', () => {
  for (const side of ['offense', 'defense'] as const) {
    const cues = readCues(side, gamesOf([[{}]]), VOCABULARY);
    expect(cues.map(({ names }) => names[0])).toEqual([...CUE_NAMES[side]]);
    expect(cues.flatMap((cue) => labels(cue)).every((label) => label === null)).toBe(true);
  }
});

it('pairs cues where both are known, at the later stage', () => {
  const plays: PlaySketch[] = [
    { formation: 'bunch', strength: 'left' },
    { formation: 'bunch', strength: 'right' },
    { formation: 'bunch' },
    { strength: 'left' },
  ];
  const pairs = readCuePairs('offense', readCues('offense', gamesOf([plays]), VOCABULARY));
  const pair = pairs.find(({ names }) => names.join() === 'formation,strength');
  expect(pair === undefined ? [] : labels(pair)).toEqual([
    'bunch with strength left',
    'bunch with strength right',
    null,
    null,
  ]);
  const withHash = pairs.find(({ names }) => names.join() === 'formation,hash');
  expect(withHash).toMatchObject({ stage: 'line', firstSeen: 'at line-up' });
});

it('says the seconds that a cue leaves only where the chart can', () => {
  const plays = [4, 9, 6, 30].map((wait): PlaySketch => ({ lineUpSecond: 100, snapSecond: 100 + wait }));
  const facts = gamesOf([[...plays, {}]]);
  const all = Int32Array.from([0, 1, 2, 3, 4]);
  expect(cueSeconds(CUE_FACTS.formation.firstSeen, facts, all)).toEqual({
    median: 7.5,
    fewest: 4,
    plays: 4,
    atLeast: false,
  });
  expect(cueSeconds(CUE_FACTS.hash.firstSeen, facts, all)).toMatchObject({ median: 7.5, atLeast: true });
  expect(cueSeconds(CUE_FACTS.motion.firstSeen, facts, all)).toBeNull();
  expect(cueSeconds(CUE_FACTS.formation.firstSeen, facts, Int32Array.from([4]))).toBeNull();
});
