import { EVALUATION_CONFIDENCE, type ForecastEvaluation } from '#domain/forecast/evaluate-forecast.js';
import type { SheetNotes } from '#domain/forecast/sheet/forecast-sheet.js';
import type { ForecastScores } from '#domain/forecast/scoring/forecast-scores.js';
import type { Interval } from '#domain/statistics/interval.js';
import { textTable } from './text-table.js';

const WIDTH = 100;
const FOUR = 4;

const SEEN = {
  situation: 'from the situation, the tempo, the players and what they called until then',
  line: 'from the same and everything that shows before the snap',
};

/** An evaluation in plain text: scores beside baselines, then how often what was forecast came true. */
export function evaluationText(evaluation: ForecastEvaluation): string {
  const { target, sight, classes, trainGames, trainPlays, testGames, model, calibration, line } = evaluation;
  const inPercent = `${Math.round(EVALUATION_CONFIDENCE * 100)} %`;
  const scoreRow = (name: string, { logLoss, brier, accuracy }: ForecastScores, more: string): string[][] =>
    [name, logLoss.toFixed(FOUR), brier.toFixed(FOUR), accuracy.toFixed(3), more].map((cell) => [cell]);
  return [
    `${target}, ${SEEN[sight]}`,
    `trained on ${trainPlays} plays of ${trainGames} games, judged on ${model.plays} plays of the ${testGames} games after`,
    '',
    ...textTable(
      ['forecast', 'log loss', 'Brier', 'accuracy', `log loss of the model less its own, ${inPercent} by games`],
      [
        scoreRow('model', model, ''),
        ...evaluation.baselines.map(({ name, scores, lead }) =>
          scoreRow(name, scores, `${signed(lead.difference)} ${range(lead.interval)}`),
        ),
      ],
      WIDTH,
    ),
    '',
    ...textTable(
      ['member of the model', 'log loss', 'Brier', 'accuracy', 'weight in the pool'],
      [
        ...evaluation.members.map(({ name, scores, weight }) => scoreRow(name, scores, weight.toFixed(2))),
        scoreRow('pool, without following anybody', evaluation.unfollowed, ''),
      ],
      WIDTH,
    ),
    '',
    `expected calibration error ${calibration.expectedCalibrationError.toFixed(FOUR)}; ` +
      `a forecast without fault stays below ${calibration.faultless95.toFixed(FOUR)} in 95 % of such tests`,
    line === null
      ? 'calibration slope and intercept: too little variety to tell'
      : `calibration slope ${line.slope.toFixed(3)} ${range(line.slopeInterval)}, ` +
        `intercept ${line.intercept.toFixed(3)} ${range(line.interceptInterval)}`,
    '',
    ...textTable(
      ['forecast', 'plays', 'mean forecast', 'came true'],
      calibration.bins.map(({ from, to, forecasts, meanForecast, happened }) =>
        [`${from.toFixed(1)}-${to.toFixed(1)}`, `${forecasts}`, meanForecast.toFixed(3), happened.toFixed(3)].map(
          (cell) => [cell],
        ),
      ),
      WIDTH,
    ),
    classes.length === 2 ? `forecasts of ${classes[1] ?? ''}` : `forecasts of each of ${classes.length} classes`,
    '',
  ].join('\n');
}

const ORDERS: Readonly<Record<SheetNotes['orderedBy'], string>> = {
  date: 'their dates',
  'season and week': 'season and week',
  reference: 'the year and what follows it in their references',
  file: 'their first rows: most games have no date that can be read, no season or week, and no dated reference',
};

const MOST_COLUMNS = 20;
const LONGEST_EXAMPLE = 40;

function fewWords(columns: readonly string[]): string {
  const rest = columns.length - MOST_COLUMNS;
  return `${columns.slice(0, MOST_COLUMNS).join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
}

/** What was not as the import would have it, a line each; none where all was. */
export function sheetNotesText(notes: SheetNotes): string[] {
  const { ignoredColumns, guessedColumns, unreadCells, ownWords, doubleRows, gamesWithoutTwoSides, orderedBy } = notes;
  const { filledCells } = notes;
  const { untimedGames } = notes;
  return [
    `games in the order of ${ORDERS[orderedBy]}`,
    ...(untimedGames === 0
      ? []
      : [`${untimedGames} games do not say it and follow the game that they stand behind in the file`]),
    ...(guessedColumns.size === 0
      ? []
      : [`taken by its header: ${fewWords([...guessedColumns].map(([header, field]) => `${header} as ${field}`))}`]),
    ...(ignoredColumns.length === 0 ? [] : [`columns not used: ${fewWords(ignoredColumns)}`]),
    ...[...ownWords].map(
      ([column, words]) => `${column}: ${words} words outside the vocabulary, each a value of its own`,
    ),
    ...[...unreadCells].map(
      ([column, { cells, example }]) =>
        `${column}: ${cells} cells not understood, taken as unknown, such as "${example.slice(0, LONGEST_EXAMPLE)}"`,
    ),
    ...(doubleRows === 0 ? [] : [`${doubleRows} rows of further charts of a game left out`]),
    ...(filledCells === 0 ? [] : [`${filledCells} blanks of the situation filled from earlier plays of their game`]),
    ...(gamesWithoutTwoSides === 0 ? [] : [`${gamesWithoutTwoSides} games with more than two sides: defense unknown`]),
  ];
}

function signed(value: number): string {
  return `${value < 0 ? '' : '+'}${value.toFixed(FOUR)}`;
}

function range({ lower, upper }: Interval): string {
  return `[${lower.toFixed(FOUR)}, ${upper.toFixed(FOUR)}]`;
}
