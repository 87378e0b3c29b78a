import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { chartOf } from '#domain/football/testing/chart-of.js';
import { callArchive } from '#domain/forecast/live/call-archive.js';
import type { GameSoFar, ModelSays } from '#domain/forecast/live/game-in-progress.js';
import { nextCall, type KnownLooks } from '#domain/forecast/live/next-call.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { LIVE_CAUTION, nextCallAnswer, nextCallJson, nextCallLine } from './next-call-answer.js';
import type { NextCallResponse } from './next-call.dto.js';

const VOCABULARY = starterVocabulary();
const PLAYER = 0;

/** Five runs and two passes on third and long, with a second of the video on each. */
const CHARTED = Array.from({ length: 7 }, (_, at) => ({
  ...{ down: 3, distance: 8, yardsToGoal: 40, snapSecond: 10 * at },
  callFamily: at < 5 ? 'run' : 'dropback-pass',
}));
const facts = classifyPlays(chartOf(CHARTED), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
const archive = callArchive('call-family', facts, new Int32Array(7).fill(PLAYER), VOCABULARY);
const toCome = classifyPlays(
  chartOf([{ down: 3, distance: 9, yardsToGoal: 30 }]),
  VOCABULARY,
  DEFAULT_FOOTBALL_SETTINGS,
);
const GAME: GameSoFar = { facts: toCome, classOf: Int32Array.of(-1) };
const QUESTION = { target: 'call-family', snap: {}, gameSoFar: [], top: 3 } as const;
/** Three of this game's calls were runs where 1.5 were expected. */
const MODEL: ModelSays = {
  shares: Float64Array.of(0.6, 0.4),
  taught: { known: 700, games: 9, counts: Float64Array.of(500, 200) },
  told: {
    earlier: { plays: 3, last: new Map() },
    ...{ known: 3, counts: Float64Array.of(3, 0), expected: Float64Array.of(1.5, 1.5) },
  },
};

function answered(handle: string, model: ModelSays | null, looks: KnownLooks = new Map()) {
  const found = nextCall(archive, PLAYER, GAME, model, looks);
  return nextCallAnswer({ playerId: 'an-id', handle }, QUESTION, archive, GAME, found, VOCABULARY);
}

const parsed = (answer: ReturnType<typeof answered>): NextCallResponse =>
  JSON.parse(nextCallJson(answer)) as NextCallResponse;

describe('an answer as JSON', () => {
  it('says what was counted, and where it is on film', () => {
    const { calls, plays, ...head } = parsed(answered('Moss "back"', null));
    expect(head).toEqual({
      ...{ playerId: 'an-id', handle: 'Moss "back"', side: 'offense', target: 'call-family', answeredBy: 'counts' },
      words: 'Moss "back" on 3rd and 7-10: run 70 % (5 of 7), dropback pass 30 % (2 of 7)',
      restsOn: 'Moss "back" on 3rd and 7-10',
      ...{ known: 7, games: 1, warning: null, caution: LIVE_CAUTION },
    });
    expect(calls[0]).toMatchObject({ call: 'run', fieldShare: 0.6875 });
    // By hand: 5.5 / 8; (5 + 30 × 0.6875) / 37; (5 + 12 × 0.692568) / 19.
    expect(calls[0]?.reasons.map(({ of, count, known, probability }) => [of, count, known, probability])).toEqual([
      ['field', 5, 7, 0.6875],
      ['field', 5, 7, 0.692568],
      ['player', 5, 7, 0.700569],
    ]);
    expect(calls[0]?.reasons.at(-1)?.words).toBe('Moss "back" on 3rd and 7-10: 5 of 7');
    expect(plays.map(({ playNumber, second }) => [playNumber, second])).toEqual(
      CHARTED.map(({ snapSecond }, at) => [at + 1, snapSecond]),
    );
  });

  it('says what a model makes of it, and how far this game is off that', () => {
    const { calls, answeredBy } = parsed(answered('Mossback', MODEL));
    expect(answeredBy).toBe('model');
    expect(calls[0]?.reasons.slice(-2)).toEqual([
      {
        words: 'all that is known weighed at once, as 700 calls taught: 60 %',
        ...{ of: 'together', count: 500, known: 700, games: 9, probability: 0.6 },
      },
      // By hand: (3 + 40 × 0.5) / 43 over 0.5 is 1.0698, (0 + 20) / 43 over 0.5 is 0.9302; 0.6 and 0.4 by these, over their sum.
      { words: 'this game, all calls: 3 of 3', of: 'today', count: 3, known: 3, games: 1, probability: 0.633028 },
    ]);
    expect(calls[0]?.probability).toBe(0.633028);
  });

  it('is the same when the look was asked about before, and follows a player who was renamed', () => {
    const looks: KnownLooks = new Map();
    const first = nextCallJson(answered('Mossback', MODEL, looks));
    expect(nextCallJson(answered('Mossback', MODEL, looks))).toBe(first);
    const renamed = nextCallJson(answered('Heron', MODEL, looks));
    expect(renamed).not.toContain('Mossback');
    expect(renamed.replaceAll('Heron', 'Mossback')).toBe(first);
  });

  it('is refused where a share is no number, rather than told as something else', () => {
    const broken = { ...MODEL, shares: Float64Array.of(Number.NaN, 0.4) };
    expect(() => answered('Mossback', broken)).toThrow(RangeError);
  });
});

describe('an answer as a line', () => {
  it('carries the caution', () => {
    expect(nextCallLine(answered('Moss\nback', null))).toBe(
      `Moss back on 3rd and 7-10: run 70 % (5 of 7), dropback pass 30 % (2 of 7). ${LIVE_CAUTION}\n`,
    );
  });
});
