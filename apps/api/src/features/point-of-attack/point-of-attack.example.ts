import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { PointOfAttackResponse } from './point-of-attack.dto.js';

const NO_RESULTS = {
  trials: 0,
  successes: 0,
  success: null,
  fieldSuccess: null,
  yards: null,
  explosive: null,
  expectedPointsAdded: null,
};

const FORCED = {
  count: 7,
  known: 20,
  raw: { share: 0.35, interval: { lower: 0.2022, upper: 0.5329 } },
  field: { share: 0.22, count: 66, known: 300 },
  plays: [EXAMPLE_PLAY],
};

export const POINT_OF_ATTACK_EXAMPLE: PointOfAttackResponse = {
  ...EXAMPLE_HEAD,
  restsOn: 'rests on 60 snaps of 3 games; whether it was forced known on 20 of 60',
  all: {
    value: null,
    snaps: 60,
    forced: {
      words:
        'all snaps: forced off the design 7 of 20, 20-53 %, field 22 %; succeeded forced 1 of 7, not forced 8 of 13; ' +
        'known on 20 of 60',
      ...FORCED,
    },
    whenForced: { ...NO_RESULTS, trials: 7, successes: 1 },
    whenNot: { ...NO_RESULTS, trials: 13, successes: 8 },
    price: { lower: -0.7, upper: -0.1 },
  },
  causes: [{ label: 'forced by a set edge', termId: null, words: 'forced by a set edge 7 of 20, 20-53 %', ...FORCED }],
  otherSide: { words: 'went to another side than meant 7 of 20, 20-53 %', ...FORCED },
  sides: [
    {
      words: 'meant for left, went right: 4 of 19',
      meant: { label: 'left', termId: null },
      went: { label: 'right', termId: null },
      count: 4,
      known: 19,
      plays: [EXAMPLE_PLAY],
    },
  ],
  gaps: [],
  byFront: [],
  byPressureSide: [],
};
