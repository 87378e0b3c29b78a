import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { ManualDefenderResponse } from './manual-defender.dto.js';

const START = { label: 'inside linebacker', termId: 512 };
const ACTION = { label: 'rushes', termId: 530 };
const SHARE = {
  count: 8,
  known: 20,
  raw: { share: 0.4, interval: { lower: 0.2406, upper: 0.5829 } },
  field: { share: 0.3, count: 90, known: 300 },
  plays: [EXAMPLE_PLAY],
};

export const MANUAL_DEFENDER_EXAMPLE: ManualDefenderResponse = {
  ...EXAMPLE_HEAD,
  side: 'defense',
  restsOn: 'rests on 60 snaps of 3 games; action of the controlled defender known on 17 of 60',
  situations: [
    {
      situation: 'all snaps',
      snaps: 60,
      starts: [
        {
          ...START,
          words:
            'all snaps: the controlled defender starts as inside linebacker 8 of 20, 24-58 %, field 30 %; known on 20 of 60',
          ...SHARE,
        },
      ],
      actions: [],
    },
  ],
  together: [
    {
      words: 'from inside linebacker, rushes: 4 of 7',
      start: START,
      action: ACTION,
      count: 4,
      known: 7,
      plays: [EXAMPLE_PLAY],
    },
  ],
  openings: [],
};
