import { EXAMPLE_HEAD } from '../../common/examples.js';
import type { ProfileResponse } from './profile.dto.js';

export const PROFILE_SHEET = [
  'player,side,situation,dimension,value,count,known,snaps,games,share,lower,upper,shrunkShare,shrunkLower,shrunkUpper,fieldShare,fieldKnown',
  'Mossback,offense,3rd and 7-10,run or pass called,pass,9,12,15,4,0.75,0.5094,0.8967,0.789,0.67,0.89,0.81,420',
  '',
].join('\r\n');

export const PROFILE_EXAMPLE: ProfileResponse = {
  ...EXAMPLE_HEAD,
  snaps: 140,
  games: 4,
  expectedPointsPlays: 12_400,
  situations: [
    {
      situation: '3rd and 7-10',
      snaps: 15,
      games: 4,
      results: {
        trials: 15,
        successes: 5,
        success: { share: 0.3333, interval: { lower: 0.1763, upper: 0.5386 } },
        fieldSuccess: { share: 0.36, count: 151, known: 419 },
        yards: { plays: 15, mean: 5.2 },
        explosive: { plays: 15, count: 1, share: 0.0667 },
        expectedPointsAdded: { plays: 15, mean: -0.12, interval: { lower: -0.75, upper: 0.51 } },
      },
      dimensions: [
        {
          dimension: 'called',
          label: 'run or pass called',
          known: 12,
          oneOffs: [],
          visibility: null,
          values: [
            {
              label: 'pass',
              termId: null,
              count: 9,
              raw: { share: 0.75, interval: { lower: 0.5094, upper: 0.8967 } },
              shrunk: { share: 0.789, interval: { lower: 0.67, upper: 0.89 } },
              field: { share: 0.81, count: 340, known: 420 },
              conflict: false,
              results: null,
              words: '3rd and 7-10: pass 9 of 12, 51-90 %, field 81 %; known on 12 of 15',
            },
          ],
        },
      ],
    },
  ],
};
