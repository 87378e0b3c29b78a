import { EXAMPLE_HEAD, EXAMPLE_IDS, EXAMPLE_PLAY } from '../../common/examples.js';
import type { AnswersResponse } from './answers.dto.js';

const RESULTS = {
  trials: 14,
  successes: 2,
  success: { share: 0.1429, interval: { lower: 0.0492, upper: 0.3491 } },
  fieldSuccess: null,
  yards: { plays: 14, mean: 0.2 },
  explosive: { plays: 14, count: 0, share: 0 },
  expectedPointsAdded: { plays: 14, mean: -0.62, interval: { lower: -0.85, upper: -0.39 } },
};

export const ANSWERS_EXAMPLE: AnswersResponse = {
  ...EXAMPLE_HEAD,
  restsOn:
    'rests on 132 plays of 41 games, within 4880 plays of the archive; defenses choose their answers, so what is told went with an answer and need not come from it',
  call: { label: 'counter read', fieldPlays: 132, opponentPlays: 9, fromFormation: 132 },
  games: [
    {
      words:
        'Reed Kestrel against Mossback: 4 plays, 0.83 points a play below what was expected; drawn towards the other games -0.26 (-0.71 to +0.19); succeeded 0 of 4, expected 2.3; with three down tight + cover 3 sky + four-man rush (2)',
      gameId: EXAMPLE_IDS.game,
      offense: { playerId: EXAMPLE_IDS.player, handle: 'Mossback' },
      defense: { playerId: EXAMPLE_IDS.opponent, handle: 'Reed Kestrel' },
      beyond: { mean: -0.26, interval: { lower: -0.71, upper: 0.19 } },
      rawBeyond: -0.55,
      success: { count: 0, known: 4 },
      expectedSuccesses: 2.3,
      answers: [{ label: 'three down tight + cover 3 sky + four-man rush', plays: 2 }],
      plays: [EXAMPLE_PLAY],
    },
  ],
  huddle: [
    {
      words:
        'Narrow Door: met 14 times in 9 games; the call succeeded 2 of 14, 5-35 %; -0.16 points a play (-0.43 to +0.10) beside what the call usually gets; went with forced off the design 13 of 14, else 14 of 106; if they adjust: inside zone, +0.08',
      label: 'Narrow Door',
      menuCall: { id: EXAMPLE_IDS.menuCall, name: 'Narrow Door', rehearsed: true, reachableByCheck: true },
      byItsLike: false,
      timesMet: 14,
      games: 9,
      who: [{ playerId: EXAMPLE_IDS.opponent, handle: 'Reed Kestrel', plays: 6 }],
      points: { mean: -0.09, interval: { lower: -0.37, upper: 0.19 } },
      againstUsual: { mean: -0.16, interval: { lower: -0.43, upper: 0.1 } },
      success: { mean: -0.04, interval: { lower: -0.13, upper: 0.05 } },
      results: RESULTS,
      mechanisms: [
        {
          name: 'forced off the design',
          with: { count: 13, known: 14 },
          without: { count: 14, known: 106 },
          difference: { lower: 0.6, upper: 0.88 },
          pValue: 0.00002,
          established: true,
        },
      ],
      price: { label: 'inside zone', points: { mean: 0.08, interval: { lower: -0.14, upper: 0.3 } } },
      plays: [EXAMPLE_PLAY],
    },
  ],
  checks: [],
  moves: [
    {
      words:
        'safety down strong: 5 times in 4 games; the call succeeded 1 of 5; 0.29 points a play below what was expected (-1.15 to +0.58)',
      what: 'alignment',
      label: 'safety down strong',
      termId: 140,
      timesMet: 5,
      games: 4,
      beyond: { mean: -0.29, interval: { lower: -1.15, upper: 0.58 } },
      results: { ...RESULTS, trials: 5, successes: 1 },
      plays: [EXAMPLE_PLAY],
    },
  ],
  byHand: [],
  reAdjustments: [],
  rosterFit: [],
};
