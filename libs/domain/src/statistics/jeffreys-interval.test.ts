import { jeffreysInterval } from './jeffreys-interval.js';
import {
  KEPT_DIGITS,
  itAgrees,
  itKeepsTheLawsOfIntervals,
  itLiesInsideClopperPearson,
} from './testing/interval-laws.js';

// R 4.2.2: qbeta(c(.025, .975), x + .5, n - x + .5), with the boundary rule of Brown, Cai & DasGupta (2001),
// Statistical Science 16, 101–133; the eight rows of seven trials are those of their Table 5.

describe('Jeffreys interval', () => {
  itAgrees(jeffreysInterval, 'R', KEPT_DIGITS, [
    { successes: 81, trials: 263, lower: 0.254521935, upper: 0.3656474992 },
    { successes: 15, trials: 148, lower: 0.06044851701, upper: 0.1576431435 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1166389829 },
    { successes: 1, trials: 29, lower: 0.0037461736491, upper: 0.150077686 },
    { successes: 0, trials: 7, lower: 0, upper: 0.2924361737 },
    { successes: 1, trials: 7, lower: 0.01587652421, upper: 0.5007974616 },
    { successes: 2, trials: 7, lower: 0.06472826695, upper: 0.647661655 },
    { successes: 3, trials: 7, lower: 0.1388642191, upper: 0.7654987507 },
    { successes: 4, trials: 7, lower: 0.2345012493, upper: 0.8611357809 },
    { successes: 5, trials: 7, lower: 0.352338345, upper: 0.9352717331 },
    { successes: 6, trials: 7, lower: 0.4992025384, upper: 0.9841234758 },
    { successes: 7, trials: 7, lower: 0.7075638263, upper: 1 },
  ]);

  itKeepsTheLawsOfIntervals(jeffreysInterval, 8);
  itLiesInsideClopperPearson(jeffreysInterval);
});
