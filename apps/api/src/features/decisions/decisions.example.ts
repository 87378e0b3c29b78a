import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { DecisionsResponse } from './decisions.dto.js';

export const DECISIONS_EXAMPLE: DecisionsResponse = {
  ...EXAMPLE_HEAD,
  restsOn: 'rests on 240 snaps of 8 games',
  decisions: [
    {
      decision: 'fourthDown',
      words: 'went for it on fourth down: 9 of 22, 26-58 %, field 24 %',
      count: 9,
      known: 22,
      raw: { share: 0.4091, interval: { lower: 0.2552, upper: 0.5829 } },
      field: { share: 0.24, count: 72, known: 300 },
      plays: [EXAMPLE_PLAY],
      by: [
        {
          partition: 'distance',
          parts: [
            {
              part: '2-3',
              words: 'went for it on fourth down, distance 2-3: 4 of 6',
              count: 4,
              known: 6,
              raw: { share: 0.6667, interval: { lower: 0.3555, upper: 0.8801 } },
              field: { share: 0.3, count: 21, known: 70 },
              plays: [EXAMPLE_PLAY],
            },
          ],
        },
      ],
    },
  ],
  timeouts: [],
};
