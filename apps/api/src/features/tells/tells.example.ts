import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { TellsResponse } from './tells.dto.js';

export const TELLS_SHEET = [
  'status,cue,seen,dimension,call,direction,count,plays,countWithout,playsWithout,difference,lower,upper,games,gamesSeen,pValue,adjustedPValue,snapsToSettle',
  'tell,motion,jet,called,run,more,22,33,14,180,0.5655,0.38,0.72,8,7,0.00003,0.004,',
  '',
].join('\r\n');

export const TELLS_EXAMPLE: TellsResponse = {
  ...EXAMPLE_HEAD,
  restsOn: 'rests on 240 plays of 8 games; 690 calls tested against what was seen before the snap',
  level: 0.1,
  tested: { plays: 240, games: 8, withoutSituation: 3, cueValues: 31, families: 140, selectedFamilies: 1, calls: 690 },
  known: [{ cue: 'motion', known: 213 }],
  tells: [
    {
      words: 'motion jet: to strength 22 of 33 with it, 14 of 180 without; seen in 7 games; leaves 3 s',
      cue: { names: ['motion'], label: 'motion', value: 'jet', stage: 'line' },
      dimension: 'direction',
      call: { label: 'to strength', termId: null },
      direction: 'more',
      count: 22,
      plays: 33,
      countWithout: 14,
      playsWithout: 180,
      of: 240,
      shareWith: 0.6667,
      shareWithout: 0.0812,
      difference: 0.5855,
      interval: { lower: 0.41, upper: 0.761 },
      lift: 8.2,
      oddsRatio: 21.5,
      pValue: 0.0000031,
      method: 'Cochran-Mantel-Haenszel with continuity correction',
      games: 8,
      gamesSeen: 7,
      oneGameOnly: false,
      seconds: { median: 3, fewest: 1, plays: 30, atLeast: false },
      evidence: [EXAMPLE_PLAY],
      exceptions: [],
      adjustedPValue: 0.0004,
      restates: false,
    },
  ],
  leads: [],
};
