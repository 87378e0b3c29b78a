import { usedColumns, readForecastSheet } from '#domain/forecast/sheet/forecast-sheet.js';
import { gameCount, type ForecastSnaps } from '#domain/forecast/forecast-snaps.js';
import { situationalLeague, type SituationalLeagueSettings } from '#domain/forecast/testing/situational-league.js';
import { leadOfForecast, replayReports } from '#domain/report-card/testing/replay-reports.js';
import type { DimensionName } from '#domain/tendencies/dimension-names.js';
import { readPlayFiles } from '#api/commands/evaluate-files.js';

/** None of these seeds was looked at while the frozen forecast was made. */
const LEAGUES: readonly SituationalLeagueSettings[] = [
  { seed: 9101, teams: 8, games: 28, blank: 0.1 },
  { seed: 9102, teams: 8, games: 28, blank: 0.3 },
  { seed: 9103, teams: 16, games: 80, blank: 0.1 },
  { seed: 9104, teams: 8, games: 42, blank: 0.15, seasonGames: 14 },
  { seed: 9105, teams: 16, games: 140, blank: 0.15, seasonGames: 40 },
];
const DEMO = ['clan-2-copper-kettle-cup-2026', 'clan-3-thimble-open-2026', 'clan-4-weathervane-classic-2026'];
const DEMO_DIMENSIONS = ['called', 'callFamily', 'front', 'coverage', 'pressure'] as const;
const SPLIT = 0.7;

/**
 * Reports on every player from the earlier games, judged by the later: the forecast that they freeze beside the shares that
 * they print, and what each is held against.
 *
 * @returns whether the forecast told more than the printed shares everywhere
 */
export async function benchFrozenForecasts(): Promise<boolean> {
  let met = true;
  const judge = (name: string, snaps: ForecastSnaps, dimension: DimensionName): void => {
    const before = process.cpuUsage();
    const replayed = replayReports(snaps, dimension, Math.round(SPLIT * gameCount(snaps)));
    const { difference, interval } = leadOfForecast(replayed);
    const [field, shares, anybody, forecast] = [
      ...[replayed.field, replayed.shares, replayed.anybody, replayed.forecast].map(mean),
    ];
    met &&= difference < 0;
    console.log(
      `${name}, ${dimension}, ${replayed.game.length} plays: field ${digits(field)}, printed shares ${digits(shares)}, ` +
        `forecast of anybody ${digits(anybody)}, forecast ${digits(forecast)}; forecast less printed shares ` +
        `${digits(difference)} [${digits(interval.lower)}, ${digits(interval.upper)}]; ` +
        `${(replayed.bytes / 1000).toFixed(1)} kB, ${(process.cpuUsage(before).user / 1e6).toFixed(1)} s`,
    );
  };
  const files = DEMO.map((name) => `seeds-demo/data/${name}.jsonl`);
  const demo = await readPlayFiles(files, (names) => usedColumns(names, null));
  const { snaps } = readForecastSheet(demo.header, demo.rows, null);
  for (const dimension of DEMO_DIMENSIONS) judge('demo', snaps, dimension);
  for (const league of LEAGUES) {
    const { teams, games, blank, seasonGames } = league;
    const name = `seed ${league.seed}, ${teams} teams, ${games} games, blanks ${blank}${seasonGames === undefined ? '' : ', seasons'}`;
    judge(name, leagueSnaps(league), 'called');
  }
  return met;
}

function leagueSnaps(league: SituationalLeagueSettings): ForecastSnaps {
  const rows = Array.from(situationalLeague(league), ({ row }) => row);
  const header = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cells = rows.map((row) => header.map((name) => row[name] ?? ''));
  return readForecastSheet(header, cells, null).snaps;
}

const mean = (losses: Float64Array): number => losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
const digits = (value: number | undefined): string => (value ?? Number.NaN).toFixed(4);
