import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { AdjustmentsResponse } from './adjustments.dto.js';

const RESULTS = {
  trials: 12,
  successes: 7,
  success: { share: 0.5833, interval: { lower: 0.3524, upper: 0.7829 } },
  fieldSuccess: { share: 0.44, count: 220, known: 500 },
  yards: { plays: 12, mean: 6.1 },
  explosive: { plays: 12, count: 1, share: 0.0833 },
  expectedPointsAdded: { plays: 12, mean: 0.18, interval: { lower: -0.3, upper: 0.66 } },
};

export const ADJUSTMENTS_EXAMPLE: AdjustmentsResponse = {
  ...EXAMPLE_HEAD,
  restsOn: 'rests on 240 snaps of 8 games; duel before the snap known on 96 of 240',
  snaps: 240,
  known: 96,
  level: 0.05,
  tree: {
    step: null,
    words: 'at the line: duel known on 96 of 240, 35-45 %; snapped without a move 60 of 96; succeeded 41 of 92',
    count: 96,
    known: 240,
    raw: { share: 0.4, interval: { lower: 0.3495, upper: 0.4527 } },
    field: null,
    plays: [EXAMPLE_PLAY],
    snapped: 60,
    results: { ...RESULTS, trials: 92, successes: 41 },
    children: [],
  },
  answers: [
    {
      shown: { by: 'defense', label: 'line shifted', termId: 421 },
      answer: { by: 'offense', label: 'play mirrored', termId: 401 },
      words:
        'after line shifted: play mirrored 12 of 20, 42-76 %, field 21 %; without it 6 of 76; stands among all answers asked about (p below 0.001); succeeded 7 of 12',
      count: 12,
      known: 20,
      raw: { share: 0.6, interval: { lower: 0.4171, upper: 0.7594 } },
      field: { share: 0.21, count: 84, known: 400 },
      plays: [EXAMPLE_PLAY],
      anyway: { count: 6, known: 76 },
      difference: { lower: 0.33, upper: 0.68 },
      pValue: 0.00002,
      established: true,
      results: RESULTS,
    },
  ],
};
