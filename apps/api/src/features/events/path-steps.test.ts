import { stepWords } from '../../rendering/report-path.js';
import type { PathRow } from './events.repository.js';
import { pathSteps } from './path-steps.js';

const MATCH: PathRow = {
  ...{ round: 1, stage: 'main', importance: null, status: 'finished', opponent: 'Quiet Heron', won: true },
  ...{ playedOn: '2031-05-01', scores: [[10, 7]] },
};

const words = (rows: readonly PathRow[]): string[] =>
  pathSteps(rows, [{ stage: 'main', round: 3 }]).map((step) => `${step.stage}: ${stepWords(step)}`);

describe('a way through an event', () => {
  it('names rounds by the size of the bracket', () => {
    expect(words([MATCH, { ...MATCH, round: 2 }, { ...MATCH, round: 3, won: false }])).toEqual([
      'quarter-final: beat Quiet Heron 10-7',
      'semifinal: beat Quiet Heron 10-7',
      'final: lost to Quiet Heron 10-7',
    ]);
  });

  it('lists the games of a longer match, and says what was forfeited', () => {
    const scores = [
      [10, 7],
      [3, 14],
      [21, 20],
    ] as const;
    expect(
      words([
        { ...MATCH, scores },
        { ...MATCH, status: 'forfeited', scores: [] },
      ]),
    ).toEqual(['quarter-final: beat Quiet Heron 10-7, 3-14, 21-20', 'quarter-final: beat Quiet Heron (forfeited)']);
  });

  it('takes the result of a game outside the bracket from its score, and knows none without', () => {
    const group: PathRow = { ...MATCH, round: null, importance: 'group', won: null };
    expect(
      words([group, { ...group, scores: [[7, 7]] }, { ...group, scores: [[0, 3]] }, { ...group, scores: [] }]),
    ).toEqual([
      'group: beat Quiet Heron 10-7',
      'group: drew with Quiet Heron 7-7',
      'group: lost to Quiet Heron 0-3',
      'group: met Quiet Heron',
    ]);
  });

  it('says what is to come, also where the opponent is open', () => {
    expect(words([{ ...MATCH, round: 3, status: 'open', won: null, opponent: null, scores: [] }])).toEqual([
      'final: meets an opponent not known here',
    ]);
  });
});
