import { starterVocabulary } from '../../charting/vocabulary.js';
import { clockSituationCodes, DEFAULT_CLOCK_SETTINGS } from '../../football/clock-situations.js';
import { DEFAULT_SITUATIONS } from '../../football/situations.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { AskedPlays } from './asked-plays.js';
import { decisions, timeoutsOf, type Decision, type DecisionSettings } from './decisions.js';

const VOCABULARY = starterVocabulary();
const SETTINGS: DecisionSettings = {
  situations: DEFAULT_SITUATIONS,
  clock: (plays) => clockSituationCodes(plays, DEFAULT_CLOCK_SETTINGS, 900),
};
const factsOf = (sketches: readonly PlaySketch[]): TendencyPlays =>
  classifyPlays(chartOf(sketches), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
const asked = (facts: TendencyPlays): AskedPlays => ({
  facts,
  field: null,
  player: -1,
  vocabulary: VOCABULARY,
  confidence: 0.9,
});
const counts = ({ all }: Decision): (number | undefined)[] => [all.count, all.known];
const parts = ({ by }: Decision, partition: string): unknown[] =>
  by
    .filter((one) => one.partition === partition)
    .flatMap((one) => one.parts.map(({ part, share }) => [part, share.count, share.known]));

const FOURTH: PlaySketch = {
  down: 4,
  distance: 1,
  yardsToGoal: 38,
  quarter: 4,
  clockSeconds: 100,
  scoreDifference: -4,
};
const FOURTHS = factsOf([
  { ...FOURTH, callFamily: 'run', snapResult: 'rushed' },
  { ...FOURTH, distance: 9, playType: 'punt', snapResult: 'downed' },
  { ...FOURTH, playType: 'field goal', scoreDifference: 0, snapResult: 'kick-good' },
  { ...FOURTH, playType: 'punt', fake: 'yes', distance: 3 },
  { ...FOURTH, playType: 'kneel' },
  { ...FOURTH, callFamily: 'no-call', snapResult: 'no-play', foul: 'false-start' },
  { ...FOURTH, down: 3, callFamily: 'run' },
]);

describe('decisions', () => {
  it('on fourth down are go or kick; fakes went, and kneels and dead balls decided nothing', () => {
    const { fourthDown, kicksAtGoal, fakes } = decisions(asked(FOURTHS), SETTINGS);
    expect(counts(fourthDown)).toEqual([2, 4]);
    expect(fourthDown.all.evidence.places()).toEqual([0, 3]);
    expect(parts(fourthDown, 'distance')).toEqual([
      ['1', 1, 2],
      ['2-3', 1, 1],
      ['8 or more', 0, 1],
    ]);
    expect(parts(fourthDown, 'zone')).toEqual([['fringe', 2, 4]]);
    expect(parts(fourthDown, 'score')).toEqual([
      ['behind by one', 2, 3],
      ['tied', 0, 1],
    ]);
    expect(parts(fourthDown, 'clock')).toEqual([
      ['two-minute trailing', 2, 3],
      ['two-minute tied', 0, 1],
    ]);
    expect(counts(kicksAtGoal)).toEqual([1, 2]);
    expect(counts(fakes)).toEqual([1, 3]);
  });

  it('stand beside the field in the same part, the own plays left out', () => {
    const field = { facts: FOURTHS, playerOf: Int32Array.of(1, 2, 1, 1, 1, 1, 1) };
    const { fourthDown } = decisions({ ...asked(FOURTHS), field, player: 2 }, SETTINGS);
    expect(fourthDown.all.field).toMatchObject({ count: 2, known: 3 });
    const one = fourthDown.by[0]?.parts.find(({ part }) => part === '1');
    expect(one?.share.field).toMatchObject({ count: 1, known: 2 });
  });

  it('on tries and kickoffs count what the chart shows, and leave open what it does not', () => {
    const { twoPointTries, onsideKicks } = decisions(
      asked(
        factsOf([
          { playType: 'two-point try', scoreDifference: 4 },
          { playType: 'try kick', scoreDifference: 6 },
          { playType: 'kickoff', callFamily: 'onside-kick', scoreDifference: -3 },
          { playType: 'kickoff', snapResult: 'touchback', scoreDifference: -3 },
          { playType: 'kickoff', scoreDifference: -3 },
        ]),
      ),
      SETTINGS,
    );
    expect(counts(twoPointTries)).toEqual([1, 2]);
    expect(parts(twoPointTries, 'score')).toEqual([['ahead by one', 1, 2]]);
    expect(counts(onsideKicks)).toEqual([1, 2]);
  });

  it('late in the game show run share and tempo by lead and deficit', () => {
    const late: PlaySketch = { quarter: 4, clockSeconds: 100, down: 1, distance: 10, yardsToGoal: 50 };
    const { runs, hurry, burn } = decisions(
      asked(
        factsOf([
          { ...late, scoreDifference: 4, callFamily: 'run', tempo: 'clock-burn' },
          { ...late, scoreDifference: 4, callFamily: 'quick-pass' },
          { ...late, scoreDifference: -4, callFamily: 'quick-pass', tempo: 'no-huddle-fast' },
        ]),
      ),
      SETTINGS,
    );
    expect(parts(runs, 'clock')).toEqual([
      ['two-minute trailing', 0, 1],
      ['four-minute ahead', 1, 2],
    ]);
    expect(parts(hurry, 'clock')).toEqual([
      ['two-minute trailing', 1, 1],
      ['four-minute ahead', 0, 1],
    ]);
    expect(counts(burn)).toEqual([1, 2]);
  });

  it('on timeouts are read off what is left, inside a half, and off the duel where it is charted', () => {
    const snap: PlaySketch = { quarter: 2, down: 1, distance: 10, offenseTimeouts: 3, defenseTimeouts: 2 };
    const facts = factsOf([
      { ...snap, quarter: 1 },
      snap,
      { ...snap, offenseTimeouts: 2, preSnapAdjustments: ['defense-timeout'] },
      { down: 2, quarter: 2 },
      { ...snap, quarter: 3, offenseTimeouts: 1 },
    ]);
    const { timeouts } = decisions(asked(facts), SETTINGS);
    expect(counts(timeouts.used)).toEqual([1, 2]);
    expect(timeouts.inTheDuel).toMatchObject({ count: 0, known: 1 });
    expect(timeouts.kept.map(({ half, left, play }) => [half, left, play])).toEqual([
      [1, 2, 2],
      [2, 1, 4],
    ]);
    const defended = timeoutsOf('defense', asked(facts), SETTINGS.clock);
    expect(parts(timeouts.used, 'half')).toEqual([['first half', 1, 2]]);
    expect(counts(defended.used)).toEqual([0, 2]);
    expect(defended.inTheDuel).toMatchObject({ count: 1, known: 1 });
  });

  it('of a player without plays are unknown, not never', () => {
    const { fourthDown, timeouts } = decisions(asked(factsOf([])), SETTINGS);
    expect(fourthDown.all.raw).toBeNull();
    expect(fourthDown.by.flatMap(({ parts: all }) => all)).toEqual([]);
    expect(timeouts.kept).toEqual([]);
  });
});
