import { starterVocabulary } from '../../charting/vocabulary.js';
import type { Note } from '../../coaching/note.js';
import type { AnsweredCall } from '../answers/report-answers-shape.js';
import type { RoundReport } from '../round-report-shape.js';
import { attachPoints } from './attach-points.js';

const VOCABULARY = starterVocabulary();
const id = (code: string): number => VOCABULARY.idOfCode(code);

const note = (of: Partial<Note>): Note => ({
  ...{ id: 'point', revision: 3, about: 'call', menuCallId: null, playerId: null, chartId: null, playNumber: null },
  ...{ callFamily: null, concept: null, formation: null, front: null, coverage: null, pressure: null },
  ...of,
});

const CALL: AnsweredCall = {
  ...{ id: 'answers/offense/counter', side: 'offense', label: 'counter read', words: '', games: [] },
  terms: { concept: id('concept.counter-read') },
  answers: [
    {
      ...{
        id: 'narrow-door',
        label: 'Narrow Door',
        installed: true,
        menuCallId: 'menu',
        words: '',
        count: 4,
        plays: [],
      },
      terms: { front: null, coverage: id('coverage.cover-3'), pressure: null },
    },
  ],
};
const NO_SIDE = { standsOut: [], mostUsed: [] };
// Only what points are attached by.
const REPORT = {
  playerId: 'opponent',
  sample: { charts: [{ chartId: 'chart', gameId: 'game' }] },
  answers: { restsOn: '', calls: [CALL], mixes: [] },
  offense: { ...NO_SIDE, mostUsed: [{ id: 'mesh', label: 'mesh', dimension: 'concept', termId: id('concept.mesh') }] },
  defense: NO_SIDE,
} as unknown as RoundReport;

const attached = (of: Partial<Note>): object[] =>
  attachPoints([note(of)], REPORT, VOCABULARY).map(({ on, claimId, play }) => ({ on, claimId, play }));

describe('coaching points', () => {
  it('stand by the opponent and the plays of the report, and by no other', () => {
    expect(attached({ about: 'opponent', playerId: 'opponent' })).toEqual([
      { on: 'opponent', claimId: null, play: null },
    ]);
    expect(attached({ about: 'opponent', playerId: 'another' })).toEqual([]);
    const play = { chartId: 'chart', playNumber: 7 };
    expect(attached({ about: 'play', ...play })).toEqual([{ on: 'play', claimId: null, play }]);
    expect(attached({ about: 'play', chartId: 'elsewhere', playNumber: 7 })).toEqual([]);
  });

  it('on a call stand by the answered call, else by the share that says the most of it', () => {
    expect(attached({ concept: id('concept.counter-read') })).toMatchObject([{ on: 'call', claimId: CALL.id }]);
    expect(attached({ concept: id('concept.mesh') })).toMatchObject([{ on: 'call', claimId: 'mesh' }]);
    expect(attached({ concept: id('concept.power') })).toEqual([]);
  });

  it('on an answer stand by it: as a call of the menu, or by its terms against the call that they name', () => {
    const coverage = id('coverage.cover-3');
    const byIt = [{ on: 'answer', claimId: 'narrow-door' }];
    expect(attached({ about: 'answer', coverage })).toMatchObject(byIt);
    expect(attached({ about: 'answer', coverage, concept: id('concept.counter-read') })).toMatchObject(byIt);
    expect(attached({ about: 'answer', coverage, concept: id('concept.mesh') })).toEqual([]);
    expect(attached({ about: 'call', menuCallId: 'menu' })).toMatchObject([{ on: 'call', claimId: 'narrow-door' }]);
    expect(attached({ about: 'call', menuCallId: 'another' })).toEqual([]);
  });

  it('are kept by id and revision, without a word of theirs', () => {
    const [point] = attachPoints([note({ about: 'opponent', playerId: 'opponent' })], REPORT, VOCABULARY);
    expect(point).toEqual({
      ...{ pointId: 'point', revision: 3, on: 'opponent', claimId: null, label: null, play: null },
    });
  });
});
