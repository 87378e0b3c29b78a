import type { Cross } from '../logistic/design.js';
import { BANDS } from './forecast-inputs.js';

/** Ridge of the logistic models. This and the factors below are round numbers that did well on simulated leagues. */
export const RIDGE = 30;
/** What is tried where a penalty is chosen by forecasting later games: the firmer ones for many classes on few plays. */
export const RIDGES = [RIDGE, 100, 300, 1000];

const LOOKS = [
  ...['offensivePersonnel', 'defensivePersonnel', 'formation', 'backfield', 'motion'],
  ...['front', 'shell', 'boxCount'],
];
const CROSSED_WITH_BANDS = ['tempo', 'leadForTimeLeft', 'secondsLeftInHalf', 'yardsToGoal', 'lastCalled'];

/** What is crossed in a logistic model whoever calls. */
export const CROSSES: readonly Cross[] = [
  ...LOOKS.map((second) => ({ first: BANDS, second, ridge: 3 })),
  ...CROSSED_WITH_BANDS.map((second) => ({ first: BANDS, second, ridge: 4 })),
  { first: 'leadForTimeLeft', second: 'secondsLeftInGame', ridge: 2 },
  { first: 'scoreDifference', second: 'secondsLeftInGame', ridge: 2 },
  { first: 'scoreDifference', second: 'secondsLeftInHalf', ridge: 2 },
  { first: 'down', second: 'distance', ridge: 1 },
];

const LOOKS_OF_A_PLAYER = ['formation', 'backfield', 'offensivePersonnel', 'motion', 'tempo'];

/** What is crossed with the player whose habit it is: what he gives away is more his own than when he throws. */
export const PLAYER_CROSSES: readonly Cross[] = [
  { first: 'player', second: 'down', ridge: 8 },
  ...LOOKS_OF_A_PLAYER.map((second) => ({ first: 'player', second, ridge: 0.7 })),
];
