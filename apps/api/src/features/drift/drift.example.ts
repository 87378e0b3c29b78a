import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { DriftResponse } from './drift.dto.js';

export const DRIFT_EXAMPLE: DriftResponse = {
  ...EXAMPLE_HEAD,
  restsOn:
    'rests on 240 snaps of 8 games; older half of the games: 118 snaps of 4 games; newer half of the games: 122 snaps of 4 games',
  earlier: { label: 'older half of the games', games: 4, snaps: 118 },
  recent: { label: 'newer half of the games', games: 4, snaps: 122 },
  unit: 'game',
  permutations: 999,
  level: 0.1,
  seed: 1,
  dimensions: [
    {
      words: 'run or pass called: the mix moved (p 0.03, the only mix looked at), 4 games against 4 games',
      dimension: 'called',
      label: 'run or pass called',
      earlierGames: 4,
      recentGames: 4,
      divergence: 0.0713,
      pValue: 0.03,
      drifted: true,
      shares: [
        {
          label: 'pass',
          termId: null,
          words:
            'pass 72 of 115 (55-70 %) before and 37 of 119 (25-38 %) since; moved (p 0.03, one of 2 shares of 1 mix looked at)',
          earlier: {
            count: 72,
            known: 115,
            raw: { share: 0.6261, interval: { lower: 0.5499, upper: 0.6964 } },
            field: null,
            plays: [EXAMPLE_PLAY],
          },
          recent: {
            count: 37,
            known: 119,
            raw: { share: 0.3109, interval: { lower: 0.2462, upper: 0.3841 } },
            field: null,
            plays: [EXAMPLE_PLAY],
          },
          difference: { lower: -0.413, upper: -0.21 },
          pValue: 0.03,
          moved: true,
        },
      ],
    },
  ],
  versions: null,
};
