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
  usualPace: { seconds: 24, known: 640 },
  timeouts: [
    {
      side: 'offense',
      used: {
        decision: 'timeoutUsed',
        words: 'used a timeout before the snap: 9 of 200, 3-8 %, field 3 %',
        count: 9,
        known: 200,
        raw: { share: 0.045, interval: { lower: 0.0265, upper: 0.0755 } },
        field: { share: 0.03, count: 60, known: 2000 },
        plays: [EXAMPLE_PLAY],
        by: [
          {
            partition: 'half',
            parts: [
              {
                part: 'first half',
                words: 'used a timeout before the snap, first half: 2 of 98, 1-6 %, field 3 %',
                count: 2,
                known: 98,
                raw: { share: 0.0204, interval: { lower: 0.0069, upper: 0.0588 } },
                field: { share: 0.03, count: 30, known: 1000 },
                plays: [EXAMPLE_PLAY],
              },
            ],
          },
        ],
      },
      inTheDuel: {
        words: 'took a timeout in the duel: not known on any play',
        count: 0,
        known: 0,
        raw: null,
        field: null,
        plays: [],
      },
      kept: [{ half: 1, left: 2, play: EXAMPLE_PLAY }],
    },
  ],
};
