import { EXAMPLE_HEAD, EXAMPLE_PLAY } from '../../common/examples.js';
import type { DisguiseResponse } from './disguise.dto.js';

const SHARE = {
  count: 6,
  known: 21,
  raw: { share: 0.2857, interval: { lower: 0.1559, upper: 0.4642 } },
  field: { share: 0.2, count: 60, known: 300 },
  plays: [EXAMPLE_PLAY],
};
const TWO_HIGH = { label: 'two high', termId: 301 };

export const DISGUISE_EXAMPLE: DisguiseResponse = {
  ...EXAMPLE_HEAD,
  side: 'defense',
  restsOn: 'rests on 60 snaps of 3 games; shell and coverage known on 24 of 60',
  snaps: 60,
  bothKnown: 24,
  disguised: { words: 'the shell lied 6 of 21, 16-46 %, field 20 %; known on 21 of 60', ...SHARE },
  byShell: [{ ...TWO_HIGH, words: 'shell two high lied 6 of 21, 16-46 %, field 20 %', ...SHARE }],
  byDown: [{ down: 3, words: 'the shell on 3rd down lied 6 of 21, 16-46 %, field 20 %', ...SHARE }],
  pairs: [
    {
      words: 'two high shown, cover 3 played: 4 of 24, disguised',
      shell: TWO_HIGH,
      coverage: { label: 'cover 3', termId: 333 },
      count: 4,
      disguised: true,
      plays: [EXAMPLE_PLAY],
    },
  ],
  lateMovers: { words: 'still moving at the snap 6 of 21, 16-46 %, field 20 %', ...SHARE },
  movedLate: { words: 'disguise moved late 6 of 21, 16-46 %, field 20 %', ...SHARE },
  visibility: null,
};
