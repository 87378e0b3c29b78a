import { seededRandom } from '../../statistics/seeded-random.js';
import { evaluateForecast } from '../evaluate-forecast.js';
import { forecastScores, playLosses } from '../scoring/forecast-scores.js';
import { readForecastSheet } from '../sheet/forecast-sheet.js';
import { replayNextCalls } from '../testing/replay-next-calls.js';
import { situationalLeague } from '../testing/situational-league.js';

function league(seed: number, games: number) {
  const header: string[] = [];
  const rows = [...situationalLeague({ seed, teams: 4, games, blank: 0.1 })].map(({ row }) => {
    for (const name of Object.keys(row)) if (!header.includes(name)) header.push(name);
    return header.map((name) => row[name] ?? '');
  });
  return readForecastSheet(header, rows, null).snaps;
}

const mean = (losses: Float64Array): number => losses.reduce((sum, loss) => sum + loss, 0) / losses.length;

describe('next calls asked play by play in games that were never seen', () => {
  const GAMES = 14;
  const SPLIT = 0.7;
  const snaps = league(601, GAMES);
  const { byCounts, byModel } = replayNextCalls(snaps, 'run-pass', Math.round(SPLIT * GAMES));
  const { baselines, model } = evaluateForecast(snaps, 'run-pass', 'line', SPLIT, seededRandom(1), () => undefined);
  const least = Math.min(...baselines.map(({ scores }) => scores.logLoss));

  it('beat every baseline, by the model by more than by counting', () => {
    expect(byModel?.outcome).toHaveLength(model.plays);
    const [counted, modelled] = [byCounts, byModel ?? byCounts].map((scored) => mean(playLosses(scored)));
    // Bounds from the run of this seed, rounded away from it; all forecasts are judged on the same plays.
    expect(counted).toBeLessThan(least);
    expect(modelled).toBeLessThan(least - 0.05);
    expect(modelled).toBeLessThan((counted ?? 0) - 0.02);
  });

  it('come within a few hundredths of the pool that npm run evaluate judges', () => {
    expect(forecastScores(byModel ?? byCounts).logLoss).toBeLessThan(model.logLoss + 0.03);
  });
});

it('an archive too thin for a model is asked by counting', () => {
  expect(replayNextCalls(league(602, 4), 'run-pass', 3).byModel).toBeNull();
});
