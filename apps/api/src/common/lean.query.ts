import { RealNumber } from './query-number.js';

/** How a call sheet mixes. */
export class LeanQuery {
  @RealNumber({
    minimum: 0,
    maximum: 1,
    default: 0.33,
    description: '0 holds whatever they do, 1 is the best against what they do now',
  })
  lean = 0.33;
}
