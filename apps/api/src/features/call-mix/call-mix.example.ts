import { EXAMPLE_HEAD, EXAMPLE_IDS } from '../../common/examples.js';
import type { CallMixResponse } from './call-mix.dto.js';

export const CALL_MIX_EXAMPLE: CallMixResponse = {
  ...EXAMPLE_HEAD,
  restsOn:
    'rests on 63 plays of the opponent in 1 situation and on 4880 plays of the archive; payoffs are of players of the mean, points a play beside the mean of the situation',
  situations: [
    {
      situation: '1st and 10',
      opponentPlays: 63,
      installed: true,
      value: -0.02,
      gap: 0,
      theirs: [
        { label: 'inside zone', count: 7, share: 0.4, equilibriumShare: 0.5 },
        { label: 'other passes', count: 17, share: 0.6, equilibriumShare: 0.5 },
      ],
      ours: [
        {
          label: 'Narrow Door',
          menuCallId: EXAMPLE_IDS.menuCall,
          rehearsed: true,
          byItsLike: false,
          gains: [0.04, -0.08],
        },
      ],
      equilibrium: [{ label: 'Narrow Door', share: 1 }],
      bestResponse: 'Narrow Door',
      dial: [
        {
          words:
            'safe: Narrow Door 100 %; if they stay -0.03 points a play (-0.12 to +0.06) for us; if they adjust (other passes) -0.08, and with 95 % at least -0.21',
          lean: 0,
          mix: [{ label: 'Narrow Door', share: 1 }],
          ifTheyStay: { mean: -0.03, interval: { lower: -0.12, upper: 0.06 } },
          ifTheyAdjust: { mean: -0.08, label: 'other passes', guarantee: -0.21 },
        },
      ],
      dominated: [],
    },
  ],
};
