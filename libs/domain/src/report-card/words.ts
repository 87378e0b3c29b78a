import { FEWEST_TO_MODEL } from '../forecast/live/call-model.js';
import type { ForecastTable, PredictedTable } from '../reports/predictions/predictions-shape.js';
import { counted, FEWEST_FOR_PERCENT, percent, percentRange, signed } from '../tendencies/words/count-words.js';
import type { ForetoldBy } from './foretold-plays.js';
import type {
  Difference,
  JudgedAnswer,
  JudgedTell,
  PlannedCount,
  PlannedSide,
  PooledCalibration,
  TableScore,
} from './report-card-shape.js';

/** Stands above every card. */
export function verdictWords(games: number): string {
  const sample = games === 1 ? 'One match' : counted(games, 'match', 'matches');
  return games === 0
    ? 'Nothing is judged yet.'
    : `${sample} cannot confirm or refute a report: chance alone moves every figure here. Read it for what to look at again, and the calibration over all reports for whether to trust the probabilities.`;
}

export function awaitedWords(hasTables: boolean): string {
  return hasTables
    ? 'no charted game yet that this report foretold: one of the opponent, of its event, from its day on, that was not in its evidence. Chart it, and the card is there.'
    : 'this report was made before reports kept their probabilities, and no charted game yet tells of its tells either.';
}

type Scored = Omit<TableScore, 'words'>;

/** Differences of log loss are small. */
const nats = (value: number): string => signed(value, 3);

/** How the two kinds of probabilities are called wherever a card is read, and what each is held against. */
export const FORETOLD_WORDS: Readonly<Record<ForetoldBy, { readonly name: string; readonly against: string }>> = {
  forecast: { name: 'forecast', against: 'the forecast of anybody' },
  shares: { name: 'printed shares', against: "the field's shares" },
};

/** A difference of log losses in figures, and what they allow to say. */
export function differenceWords({ mean, interval, drawn, clusters }: Difference): {
  readonly figures: string;
  readonly verdict: string;
} {
  if (interval === null) return { figures: nats(mean), verdict: `one ${drawn.slice(0, -1)} alone gives no interval` };
  const verdict =
    interval.upper < 0
      ? 'below 0: what is known of this player told more'
      : interval.lower > 0
        ? 'above 0: what is known of this player told less'
        : 'the range holds 0: too few to tell them apart';
  const range = `${nats(interval.lower)} to ${nats(interval.upper)}, drawing whole ${drawn}, ${clusters} of them`;
  return { figures: `${nats(mean)} (${range})`, verdict };
}

/** `run or pass called, printed shares: log loss 0.61, the field's shares 0.66, on 34 plays; difference -0.05 (...)` */
export function scoreWords({ label, by, plays, snaps, report, baseline, logLossDifference }: Scored): string {
  const { name, against } = FORETOLD_WORDS[by];
  const { figures, verdict } = differenceWords(logLossDifference);
  const known =
    plays === snaps ? counted(plays, 'play') : `the ${plays} of ${counted(snaps, 'play')} on which it is known`;
  return `${label}, ${name}: log loss ${report.logLoss.toFixed(3)}, ${against} ${baseline.logLoss.toFixed(3)}, on ${known}; difference ${figures}; ${verdict}`;
}

/**
 * Which probabilities a card judges.
 *
 * @param forecast - null of a report that keeps none
 */
export function judgedWords(printed: readonly PredictedTable[], forecast: readonly ForecastTable[] | null): string {
  const alone = 'the shares that it printed are judged alone';
  if (forecast === null) return `The report keeps no forecast, so ${alone}.`;
  const labels = printed
    .filter(({ dimension }) => !forecast.some((table) => table.dimension === dimension))
    .map(({ label }) => label);
  const thin = `Of ${labels.join(', ')} fewer than ${FEWEST_TO_MODEL} calls were known, too few for a forecast: ${alone}.`;
  const [first] = forecast;
  if (first === undefined) return thin;
  const { calls, games, ofPlayer } = first.learnedFrom;
  const both =
    'Two kinds of probabilities are judged: the forecast, by what showed before each snap, as it stood when the report was made; and the shares that the report printed, by the situation alone.';
  const learned = `The forecast of ${first.label} was learned from ${counted(calls, 'call')} of ${counted(games, 'game')}, ${ofPlayer} of them this player's.`;
  return [both, learned, ...(labels.length === 0 ? [] : [thin])].join(' ');
}

export function tellVerdictWords(of: Omit<JudgedTell, 'words'>): string {
  const { label, predicted, without, count, known, interval, outcome, side } = of;
  const foretold = `foretold ${predicted.count} of ${predicted.known} with it, ${without.count} of ${without.known} without`;
  const head = `${side}, ${label}: ${foretold}`;
  if (interval === null) return `${head}; the cue was not seen with a known call`;
  const range = known < FEWEST_FOR_PERCENT ? '' : `, ${percentRange(interval)}`;
  return `${head}; seen ${count} of ${known}${range}: ${outcome}`;
}

export function answerVerdictWords(of: Omit<JudgedAnswer, 'words'>): string {
  const { call, answer, chances, plays, points, pointsPlays, successes, trials, expected, side } = of;
  const own = `${answer} against ${call} (${side === 'offense' ? 'their offense' : 'their defense'})`;
  const hoped = `expected ${signed(expected.points)} (${signed(expected.interval.lower)} to ${signed(expected.interval.upper)}) points a play`;
  if (chances === 0) return `${own}: the call never came with what met it seen; ${hoped}`;
  if (plays === 0) return `${own}: not used in ${counted(chances, 'chance')}; ${hoped}`;
  const gave = points === null ? 'points not known' : `gave ${signed(points)} on ${counted(pointsPlays, 'play')}`;
  const few = plays < FEWEST_FOR_PERCENT ? '; too few to say' : '';
  return `${own}: used on ${plays} of ${counted(chances, 'chance')}; ${gave}, success of the offense ${successes} of ${trials}; ${hoped}${few}`;
}

export function plannedWords({ side, asMeant, otherwise, notSeen }: Omit<PlannedSide, 'words'>): string {
  const part = (what: string, { plays, successes, trials }: PlannedCount): string =>
    `${what} on ${counted(plays, 'snap')}, success ${successes} of ${trials}`;
  const unseen = notSeen === 0 ? '' : `; on ${counted(notSeen, 'snap')} the chart does not say`;
  return `our ${side}: ${part('called as meant', asMeant)}; ${part('otherwise', otherwise)}${unseen}`;
}

export function calibrationWords(of: Omit<PooledCalibration, 'words'>): string {
  const { reports, byForecast, games, plays, calibration, line } = of;
  if (calibration === null) return 'No report of the clan has been followed by a charted game yet.';
  const { expectedCalibrationError: error, faultless95 } = calibration;
  const judged =
    byForecast === 0
      ? 'by printed shares'
      : byForecast === reports
        ? 'by the forecast'
        : `${byForecast} of them by the forecast, the others by printed shares`;
  const sample = `${counted(reports, 'report')} (${judged}), ${counted(games, 'game')}, ${counted(plays, 'play')}, run or pass`;
  const against =
    error <= faultless95
      ? 'within what a forecast without fault shows by chance'
      : 'more than a forecast without fault shows by chance';
  const fit =
    line === null
      ? ''
      : `; slope ${line.slope.toFixed(2)} (${line.slopeInterval.lower.toFixed(2)} to ${line.slopeInterval.upper.toFixed(2)}), 1 without fault`;
  return `${sample}: off by ${percent(error)} on average, ${against} (up to ${percent(faultless95)})${fit}`;
}
