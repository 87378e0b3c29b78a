import { gameCount } from '../../forecast/forecast-snaps.js';
import { readForecastSheet } from '../../forecast/sheet/forecast-sheet.js';
import { situationalLeague } from '../../forecast/testing/situational-league.js';
import { leadOfForecast, replayReports } from './replay-reports.js';

it('a frozen forecast tells more of later games than the printed shares, and than the forecast of anybody', () => {
  const rows = Array.from(situationalLeague({ seed: 9106, teams: 8, games: 24, blank: 0.1 }), ({ row }) => row);
  const header = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cells = rows.map((row) => header.map((name) => row[name] ?? ''));
  const { snaps } = readForecastSheet(header, cells, null);
  const replayed = replayReports(snaps, 'called', Math.round(0.7 * gameCount(snaps)));
  const mean = (losses: Float64Array): number => losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
  // Every call of a later game is foretold once, by the report on whoever called it.
  expect(replayed.game.length).toBeGreaterThan(500);
  expect(leadOfForecast(replayed).interval.upper).toBeLessThan(0);
  expect(mean(replayed.forecast)).toBeLessThan(mean(replayed.anybody));
});
