import type { ExpectedPointsChain } from '../football/expected-points-chain.js';
import { elementAt } from '../statistics/element-at.js';
import type { FourthDownStrip } from './call-sheet-shape.js';
import { fourthDownAdvice } from './fourth-down.js';
import { CONVERSION_BANDS, type OurFigures } from './our-figures.js';

/** What stands for each band of yards to go: near its lower end, since most fourth downs of a band are. */
const TYPICAL_DISTANCES = [1, 2, 5, 10];
const DISTANCES = CONVERSION_BANDS.map(({ name }, band) => ({ name, distance: elementAt(TYPICAL_DISTANCES, band) }));
/** Where the ball is, by the middle of a stretch that is called alike. */
const SPOTS = [
  { name: 'their 3', yardsToGoal: 3 },
  { name: 'their 10', yardsToGoal: 10 },
  { name: 'their 20', yardsToGoal: 20 },
  { name: 'their 30', yardsToGoal: 30 },
  { name: 'their 38', yardsToGoal: 38 },
  { name: 'midfield', yardsToGoal: 48 },
  { name: 'own 40', yardsToGoal: 60 },
  { name: 'own 25', yardsToGoal: 75 },
];

/** Fourth downs of ours while score and clock do not matter. */
export function fourthDownStrip(figures: OurFigures, chain: ExpectedPointsChain): FourthDownStrip {
  return {
    distances: DISTANCES,
    spots: SPOTS,
    advice: DISTANCES.map(({ distance }) =>
      SPOTS.map(({ yardsToGoal }) =>
        distance > yardsToGoal
          ? null
          : fourthDownAdvice(figures, chain, {
              distance,
              yardsToGoal,
              scoreDifference: null,
              secondsLeft: null,
              timeouts: 0,
            }),
      ),
    ),
  };
}
