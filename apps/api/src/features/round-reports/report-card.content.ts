import { EXAMPLE_IDS } from '../../common/examples.js';
import type { SchemaObject } from '../../openapi/document-types.js';
import type { ReadReportCard } from '../../rendering/report-card-sections.js';

const EXAMPLE: ReadReportCard = {
  id: EXAMPLE_IDS.match,
  opponent: 'Brass Heron',
  event: 'Spring Cup',
  round: 'final',
  madeAt: '2026-03-01T18:00:00.000Z',
  asOf: null,
  confidence: 0.9,
  awaited: null,
  verdict:
    'One match cannot confirm or refute a report: chance alone moves every figure here. Read it for what to look at again, and the calibration over all reports for whether to trust the probabilities.',
  games: [{ gameId: EXAMPLE_IDS.game, name: 'Brass Heron - Mossback, Spring Cup, 2026-03-02' }],
  snaps: { offense: 34, defense: 31 },
  judged:
    "Two kinds of probabilities are judged: the forecast, by what showed before each snap, as it stood when the report was made; and the shares that the report printed, by the situation alone. The forecast of run or pass called was learned from 2961 calls of 47 games, 112 of them this player's.",
  scores: [
    {
      side: 'offense',
      dimension: 'called',
      label: 'run or pass called',
      by: 'forecast',
      plays: 34,
      snaps: 34,
      report: { logLoss: 0.571, brier: 0.194 },
      baseline: { logLoss: 0.592, brier: 0.203 },
      logLossDifference: { mean: -0.021, interval: { lower: -0.064, upper: 0.019 }, drawn: 'drives', clusters: 8 },
      brierDifference: { mean: -0.009, interval: { lower: -0.027, upper: 0.008 }, drawn: 'drives', clusters: 8 },
      words:
        'run or pass called, forecast: log loss 0.571, the forecast of anybody 0.592, on 34 plays; difference -0.021 (-0.064 to +0.019, drawing whole drives, 8 of them); the range holds 0: too few to tell them apart',
    },
    {
      side: 'offense',
      dimension: 'called',
      label: 'run or pass called',
      by: 'shares',
      plays: 34,
      snaps: 34,
      report: { logLoss: 0.612, brier: 0.211 },
      baseline: { logLoss: 0.661, brier: 0.234 },
      logLossDifference: { mean: -0.049, interval: { lower: -0.131, upper: 0.028 }, drawn: 'drives', clusters: 8 },
      brierDifference: { mean: -0.023, interval: { lower: -0.061, upper: 0.014 }, drawn: 'drives', clusters: 8 },
      words:
        "run or pass called, printed shares: log loss 0.612, the field's shares 0.661, on 34 plays; difference -0.049 (-0.131 to +0.028, drawing whole drives, 8 of them); the range holds 0: too few to tell them apart",
    },
  ],
  tells: [
    {
      id: 'offense/tells/motion/term:70/called/run',
      side: 'offense',
      label: 'run with motion jet',
      direction: 'more',
      predicted: { count: 22, known: 27 },
      without: { count: 31, known: 88 },
      count: 6,
      known: 7,
      interval: { lower: 0.56, upper: 0.967 },
      outcome: 'held',
      words: 'offense, run with motion jet: foretold 22 of 27 with it, 31 of 88 without; seen 6 of 7: held',
    },
  ],
  answers: [
    {
      id: 'answers/offense/concept:88/menu:1',
      side: 'offense',
      call: 'mesh',
      answer: 'Narrow Door',
      installed: true,
      chances: 5,
      plays: 2,
      points: -0.4,
      pointsPlays: 2,
      successes: 1,
      trials: 2,
      expected: { points: -0.12, interval: { lower: -0.35, upper: 0.1 } },
      words:
        'Narrow Door against mesh (their offense): used on 2 of 5 chances; gave -0.40 on 2 plays, success of the offense 1 of 2; expected -0.12 (-0.35 to +0.10) points a play; too few to say',
    },
  ],
  planned: null,
  apart: {
    fouls: [{ whose: 'opponent', count: 3, words: '3 fouls, 2 accepted, 15 yards' }],
    kicks: [{ whose: 'ours', count: 2, words: '2 field goals, good 1 of 2' }],
    decisions: [],
  },
  calibration: {
    reports: 3,
    byForecast: 3,
    games: 3,
    plays: 104,
    calibration: {
      bins: [{ from: 0.5, to: 0.6, forecasts: 104, meanForecast: 0.55, happened: 0.58 }],
      expectedCalibrationError: 0.03,
      faultless95: 0.08,
    },
    line: null,
    words:
      '3 reports (by the forecast), 3 games, 104 plays, run or pass: off by 3 % on average, within what a forecast without fault shows by chance (up to 8 %)',
  },
};

const SCHEMA: SchemaObject = {
  type: 'object',
  required: [
    'id',
    'opponent',
    'madeAt',
    'awaited',
    'verdict',
    'games',
    'judged',
    'scores',
    'tells',
    'answers',
    'calibration',
  ],
  properties: {
    id: { type: 'string', format: 'uuid', description: 'of the report' },
    opponent: { type: 'string', nullable: true, description: 'the handle as it is now' },
    madeAt: { type: 'string', format: 'date-time' },
    awaited: { type: 'string', nullable: true, description: 'what is missing before anything can be judged' },
    verdict: { type: 'string', description: 'what may be concluded, and what not' },
    games: { type: 'array', items: { type: 'object', additionalProperties: true }, description: 'judged by' },
    judged: { type: 'string', nullable: true, description: 'which probabilities are judged, and why no others' },
    scores: {
      type: 'array',
      items: { type: 'object', additionalProperties: true },
      description:
        "log loss (nats) and Brier score of the frozen probabilities beside their baseline's, by kind of call: by `forecast` beside the forecast of a player of whom nothing is known, by `shares` (printed) beside the field's",
    },
    tells: { type: 'array', items: { type: 'object', additionalProperties: true } },
    answers: { type: 'array', items: { type: 'object', additionalProperties: true } },
    planned: { type: 'object', nullable: true, additionalProperties: true, description: 'own call log against chart' },
    apart: { type: 'object', additionalProperties: true, description: 'fouls, kicks and decisions' },
    calibration: { type: 'object', additionalProperties: true, description: "pooled over the clan's reports" },
  },
  additionalProperties: true,
};

const TEXT = { schema: { type: 'string', example: 'Report card: Brass Heron' } } as const;

/** The same card in each of its media types. */
export const REPORT_CARD_CONTENT = {
  'application/json': { schema: SCHEMA, example: EXAMPLE },
  'text/markdown': TEXT,
  'text/plain': TEXT,
  'text/html': TEXT,
};
