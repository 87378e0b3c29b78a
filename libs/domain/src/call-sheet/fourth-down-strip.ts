import type { ExpectedPointsChain } from '../football/expected-points-chain.js';
import type { FourthDownStrip } from './call-sheet-shape.js';
import { fourthDownAdvice } from './fourth-down.js';
import type { OurFigures } from './our-figures.js';

const DISTANCES = [
  { name: '1', distance: 1 },
  { name: '2-3', distance: 2 },
  { name: '4-6', distance: 5 },
  { name: '7-10', distance: 8 },
];
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
