import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { SequencesResponse } from './sequences.dto.js';

const RUN = { label: 'run', termId: 61 };
const SHARE = {
  count: 8,
  known: 15,
  raw: { share: 0.5333, interval: { lower: 0.331, upper: 0.7248 } },
  field: { share: 0.4, count: 48, known: 120 },
  plays: [EXAMPLE_PLAY],
};

export const SEQUENCES_EXAMPLE: SequencesResponse = {
  ...EXAMPLE_HEAD,
  restsOn: 'rests on 240 snaps of 8 games; call family known on 213 of 240',
  dimension: 'callFamily',
  dimensionLabel: 'call family',
  snaps: 240,
  known: 213,
  openers: [
    {
      of: 'game',
      games: [{ gameId: EXAMPLE_PLAY.gameId, snaps: [{ ...EXAMPLE_PLAY, value: RUN }] }],
      values: [
        {
          ...RUN,
          words: 'first 15 snaps of a game: run 8 of 15, 33-72 %, field 40 %; later 60 of 198',
          ...SHARE,
          later: { count: 60, known: 198 },
          difference: { lower: 0.012, upper: 0.428 },
        },
      ],
    },
  ],
  repeats: [
    {
      after: 'failure',
      words:
        'after a failure: same call family again 8 of 15, 33-72 %, field 40 %; the own mix would give 6 of 14; ' +
        'no more than chance (p 0.3)',
      ...SHARE,
      anyway: 0.4286,
      expectedOf: 14,
      test: { matches: 8, expected: 6.1, pValue: 0.3, informative: 12 },
    },
  ],
  reactions: [
    {
      event: 'sack',
      snaps: 5,
      known: 4,
      values: [
        {
          ...RUN,
          words: 'snap after a sack: run 3 of 4; otherwise 80 of 209; known on 4 of 5; no more than chance (p 0.09)',
          count: 3,
          known: 4,
          raw: { share: 0.75, interval: { lower: 0.3636, upper: 0.9405 } },
          field: { share: 0.3, count: 12, known: 40 },
          plays: [EXAMPLE_PLAY],
          otherwise: { count: 80, known: 209 },
          difference: { lower: -0.021, upper: 0.56 },
          pValue: null,
          fieldPValue: 0.09,
        },
      ],
    },
  ],
  order: {
    words:
      '160 pairs of snaps: no sign that the call family depends on the snap before (p 0.4), inside situation and game',
    within: 'drive',
    pValue: 0.41,
    situations: [],
  },
};
