import { EXAMPLE_IDS, EXAMPLE_PLAY } from '../../common/examples.js';
import { ANSWERS_EXAMPLE } from './answers.example.js';
import type { CallStudyResponse } from './call-studies.dto.js';

const [GAME] = ANSWERS_EXAMPLE.games;
const [ANSWER] = ANSWERS_EXAMPLE.huddle;

export const CALL_STUDY_EXAMPLE: CallStudyResponse = {
  side: 'offense',
  confidence: 0.9,
  restsOn: '75 plays of 31 games, by 14 players',
  call: { label: 'counter read', plays: 75, games: 31, players: 14 },
  usage: {
    words: 'counter read (concept) is rising: 10 of 1302, 65 of 1186; used by 3, 13 players; p below 0.001',
    verdict: 'rising',
    byEvent: [
      {
        event: { eventIds: [EXAMPLE_IDS.event], name: 'Spring Cup', startsOn: '2026-02-06', games: 20 },
        ...{ count: 10, known: 1302, users: 3, players: 22, successes: 7, trials: 10, plays: [] },
        share: { share: 0.0077, interval: { lower: 0.0046, upper: 0.0127 } },
        success: { share: 0.7, interval: { lower: 0.4366, upper: 0.8749 } },
        expectedPointsAdded: { plays: 10, mean: 0.31, interval: { lower: -0.2, upper: 0.82 } },
      },
    ],
  },
  giveaways: {
    words:
      "61 looks put to the test, compared within one situation of one player's game; of those found, 10 % may be chance",
    tested: 61,
    found: [
      {
        words: 'motion jet: 22 of 33 plays with it were this call, 14 of 180 without; leaves 3 s',
        with: { count: 22, known: 33 },
        without: { count: 14, known: 180 },
        difference: { lower: 0.31, upper: 0.66 },
        adjusted: 0.004,
        secondsLeft: 3,
        plays: [EXAMPLE_PLAY],
      },
    ],
  },
  situations:
    ANSWER === undefined
      ? []
      : [{ situation: null, words: 'success 35 of 75, 38-56 %, all calls 44 %', results: ANSWER.results }],
  games: GAME === undefined ? [] : [GAME],
  answers: ANSWER === undefined ? [] : [ANSWER],
  moves: ANSWERS_EXAMPLE.moves,
  film: [
    {
      ...EXAMPLE_PLAY,
      game: 'Brass Heron - Mossback, Spring Cup, 2026-03-01',
      at: '21:24',
      address: 'https://video.example/g4#t=1284',
      reason: 'no success against three down tight + cover 3 sky + four-man rush',
    },
  ],
  coachingPoints: [
    {
      id: EXAMPLE_IDS.match,
      about: 'call',
      text: 'The guard pulls early: the end may sit on it.',
      ...{ revision: 2, writtenBy: 'Marlow', writtenAt: '2026-03-01T18:00:00Z' },
    },
  ],
};
