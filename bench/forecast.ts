import { writeFile } from 'node:fs/promises';
import { evaluateForecast } from '#domain/forecast/evaluate-forecast.js';
import { forecastScores } from '#domain/forecast/scoring/forecast-scores.js';
import { readForecastSheet } from '#domain/forecast/sheet/forecast-sheet.js';
import { SIGHTS } from '#domain/forecast/targets.js';
import { replayNextCalls } from '#domain/forecast/testing/replay-next-calls.js';
import { situationalLeague, type SituationalLeagueSettings } from '#domain/forecast/testing/situational-league.js';
import { betaCdf } from '#domain/statistics/distributions.js';
import { seededRandom } from '#domain/statistics/seeded-random.js';
import { benchFrozenForecasts } from './forecast-frozen.js';

/** None of these seeds was looked at while the model was made. */
const LEAGUES: readonly SituationalLeagueSettings[] = [
  { seed: 101, teams: 8, games: 28, blank: 0.1 },
  { seed: 102, teams: 8, games: 28, blank: 0.1 },
  { seed: 103, teams: 8, games: 28, blank: 0.3 },
  { seed: 104, teams: 16, games: 140, blank: 0.1 },
  { seed: 105, teams: 16, games: 140, blank: 0.15, seasonGames: 40 },
];
const SPLIT = 0.7;
const MOST_ERROR = 0.02;
const LARGE_TEST = 10_000;

interface SimulatedSheet {
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Log loss of the probabilities that the called snaps of the later games were drawn from: before, and at the line. */
  readonly truth: readonly [number, number];
}

/**
 * Run or pass on simulated leagues: the model beside its baselines and beside the probabilities that the calls were drawn
 * from, which know every team's plan and so cannot be reached. With `write FILE SEED TEAMS GAMES` it writes such a
 * league as a sheet for `npm run evaluate` instead; with `next-call` it judges the live way, with `frozen` what reports keep.
 *
 * @returns whether the model beat every baseline on each league and was calibrated: on large tests each, on small ones as
 *   often as a forecast without fault
 */
export async function benchForecast(words: readonly string[]): Promise<boolean> {
  const [what, file = '', ...numbers] = words;
  if (what === 'write') {
    const [seed = 1, teams = 8, games = 28] = numbers.map(Number);
    const { header, rows } = simulated({ seed, teams, games, blank: 0.1 });
    await writeFile(file, [header, ...rows].map((row) => `${row.join(',')}\n`).join(''));
    console.log(`${rows.length} plays in ${file}`);
    return true;
  }
  if (what === 'next-call') return benchNextCalls();
  if (what === 'frozen') return benchFrozenForecasts();
  let met = true;
  const small = { tests: 0, above: 0 };
  for (const league of LEAGUES) {
    const sheet = simulated(league);
    const { snaps } = readForecastSheet(sheet.header, sheet.rows, null);
    for (const [place, sight] of SIGHTS.entries()) {
      const before = process.cpuUsage();
      const { model, baselines, calibration, line } = evaluateForecast(
        ...([snaps, 'run-pass', sight, SPLIT, seededRandom(1)] as const),
        () => undefined,
      );
      const seconds = process.cpuUsage(before).user / 1e6;
      // The last baseline looks at the formation, which a forecast from the situation does not.
      const fair = sight === 'situation' ? baselines.slice(0, -1) : baselines;
      const best = Math.min(...fair.map(({ scores }) => scores.logLoss));
      const error = calibration.expectedCalibrationError;
      const isLarge = model.plays >= LARGE_TEST;
      const isCalibrated = error <= (isLarge ? MOST_ERROR : calibration.faultless95);
      met &&= (isCalibrated || !isLarge) && model.logLoss < best;
      if (!isLarge) {
        small.tests += 1;
        small.above += isCalibrated ? 0 : 1;
      }
      console.log(
        `seed ${league.seed}, ${league.teams} teams, ${league.games} games, blanks ${league.blank}${league.seasonGames === undefined ? '' : ', calls that hang on several things at once'}, ${sight}: log loss ` +
          `${model.logLoss.toFixed(4)} on ${model.plays}, best baseline ${best.toFixed(4)}, drawn from ${(sheet.truth[place] ?? 0).toFixed(4)}; ` +
          `calibration error ${error.toFixed(4)} (faultless 95 %: ${calibration.faultless95.toFixed(4)})` +
          `${isCalibrated ? '' : isLarge ? ' MISSED' : ' above'}, slope ${line?.slope.toFixed(2) ?? 'none'}; ${seconds.toFixed(1)} s of one core`,
      );
    }
  }
  const most = mostAbove(small.tests);
  console.log(
    `${small.above} of ${small.tests} small tests above the 95 % quantile; a faultless forecast has at most ${most} in 95 of 100 such benches`,
  );
  return met && small.above <= most;
}

/** How many of so many tests a forecast without fault has above its own 95 % quantile, in at least 95 of 100 benches. */
function mostAbove(tests: number): number {
  let most = 0;
  // A binomial distribution's lower tail by the Beta distribution: Abramowitz & Stegun (1964), 26.5.24.
  while (most < tests && betaCdf(0.95, tests - most, most + 1) < 0.95) most += 1;
  return most;
}

const LIVE_LEAGUES = [
  { seed: 111, teams: 8, games: 28, blank: 0.1 },
  { seed: 112, teams: 8, games: 28, blank: 0.1 },
  { seed: 113, teams: 16, games: 80, blank: 0.1 },
];

/** Next calls asked play by play in the later games, beside the pool and the baselines on the same plays. */
function benchNextCalls(): boolean {
  let met = true;
  for (const league of LIVE_LEAGUES) {
    const { header, rows } = simulated(league);
    const { snaps } = readForecastSheet(header, rows, null);
    const evaluation = evaluateForecast(snaps, 'run-pass', 'line', SPLIT, seededRandom(1), () => undefined);
    const least = Math.min(...evaluation.baselines.map(({ scores }) => scores.logLoss));
    const { byCounts, byModel } = replayNextCalls(snaps, 'run-pass', Math.round(SPLIT * league.games));
    const [counted, modelled] = [byCounts, byModel ?? byCounts].map((scored) => forecastScores(scored).logLoss);
    met &&= modelled !== undefined && modelled < least;
    console.log(
      `seed ${league.seed}, ${league.teams} teams, ${league.games} games, ${evaluation.model.plays} plays: best baseline ` +
        `${least.toFixed(4)}, counting ${counted?.toFixed(4)}, model ${modelled?.toFixed(4)}, pool ${evaluation.model.logLoss.toFixed(4)}`,
    );
  }
  return met;
}

function simulated(league: SituationalLeagueSettings): SimulatedSheet {
  const header: string[] = [];
  const rows: string[][] = [];
  const losses = [0, 0];
  let called = 0;
  const firstLater = Math.round(SPLIT * league.games) + 1;
  for (const { row, passBefore, passSeen } of situationalLeague(league)) {
    for (const name of Object.keys(row)) if (!header.includes(name)) header.push(name);
    rows.push(header.map((name) => row[name] ?? ''));
    if (Number.isNaN(passBefore) || Number((row['game'] ?? '').slice(-5)) < firstLater) continue;
    called += 1;
    [passBefore, passSeen].forEach((pass, at) => {
      losses[at] = (losses[at] ?? 0) - Math.log(row['called'] === 'pass' ? pass : 1 - pass);
    });
  }
  const full = rows.map((row) => header.map((_, at) => row[at] ?? ''));
  return { header, rows: full, truth: [(losses[0] ?? 0) / called, (losses[1] ?? 0) / called] };
}
