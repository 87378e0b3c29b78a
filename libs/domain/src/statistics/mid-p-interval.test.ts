import { midPInterval } from './mid-p-interval.js';
import {
  HALF_A_PRINTED_DIGIT,
  KEPT_DIGITS,
  itAgrees,
  itKeepsTheLawsOfIntervals,
  itLiesInsideClopperPearson,
} from './testing/interval-laws.js';

// Newcombe (1998), Stat. Med. 17, 857–872, Table I, method 6; R 4.2.2 by root finding.

describe('mid-P interval', () => {
  itAgrees(midPInterval, 'Newcombe', HALF_A_PRINTED_DIGIT, [
    { successes: 81, trials: 263, lower: 0.2544, upper: 0.3658 },
    { successes: 15, trials: 148, lower: 0.0601, upper: 0.1581 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1391 },
    { successes: 1, trials: 29, lower: 0.0017, upper: 0.1585 },
  ]);

  itAgrees(midPInterval, 'R', KEPT_DIGITS, [
    { successes: 81, trials: 263, lower: 0.2544021049, upper: 0.3657734743 },
    { successes: 15, trials: 148, lower: 0.06006360267, upper: 0.1581217331 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1391083407 },
    { successes: 1, trials: 29, lower: 0.0017247701147, upper: 0.1585373837 },
  ]);

  itKeepsTheLawsOfIntervals(midPInterval, 8);
  itLiesInsideClopperPearson(midPInterval);
});
