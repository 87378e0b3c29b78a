import { PlayColumns, type Column } from '../../charting/play-columns.js';
import type { PlayFieldName } from '../../charting/play-fields.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { freezeForecast } from '../../forecast/frozen/freeze-forecast.js';
import { gameCount, type ForecastSnaps } from '../../forecast/forecast-snaps.js';
import { playLosses } from '../../forecast/scoring/forecast-scores.js';
import { lossDifference, type LossDifference } from '../../forecast/scoring/loss-difference.js';
import { forecastTable, planForecasts } from '../../reports/predictions/forecast-tables.js';
import { predictedTables } from '../../reports/predictions/predicted-tables.js';
import type { ForecastTable, PredictedTable } from '../../reports/predictions/predictions-shape.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../tendencies/classify-plays.js';
import { DIMENSION_NAMES, type DimensionName } from '../../tendencies/dimension-names.js';
import { fieldModel } from '../../tendencies/field-model.js';
import { profile } from '../../tendencies/profile.js';
import type { Side, TendencyPlays } from '../../tendencies/tendency-plays.js';
import { foretoldPlays } from '../foretold-plays.js';
import type { ChartedGame } from '../judged-games.js';
import { matchPlays } from '../match-plays.js';

// Test support: reports on every player made from a league's earlier games, and judged by the later ones.

/** Losses of the same plays, one after the other, under what was frozen of them. */
export interface ReplayedReports {
  readonly game: Int32Array;
  /** Printed shares, and the field's beside them. */
  readonly shares: Float64Array;
  readonly field: Float64Array;
  /** The forecast, and that of a player of whom nothing is known. */
  readonly forecast: Float64Array;
  readonly anybody: Float64Array;
  /** Bytes of one forecast as JSON, on average over the players. */
  readonly bytes: number;
}

/** @param untilGame - the reports know the games before it */
export function replayReports(snaps: ForecastSnaps, dimension: DimensionName, untilGame: number): ReplayedReports {
  const games = Array.from({ length: gameCount(snaps) }, (_, game) => game);
  const archive = newestFirst(snaps, games.slice(0, untilGame));
  const later = newestFirst(snaps, games.slice(untilGame));
  const parts = archive.players.flatMap((player) => {
    const tables = tablesOf(archive, dimension, player);
    if (tables === null) return [];
    const of = { facts: later.facts, games: later.games, vocabulary: snaps.vocabulary, opponent: nameOf(player) };
    const match = matchPlays(of, chartsOf(later, player));
    const [printed, forecast] = [foretoldPlays(tables.printed, match), foretoldPlays(tables.forecast, match)];
    // Who played only earlier is judged by nothing.
    if (printed.places.length === 0) return [];
    return [
      {
        game: [...printed.places.map((play) => later.facts.plays.chartIndex[play] ?? -1)],
        bytes: JSON.stringify(tables.forecast).length,
        ...{ shares: [...playLosses(printed.report)], field: [...playLosses(printed.baseline)] },
        ...{ forecast: [...playLosses(forecast.report)], anybody: [...playLosses(forecast.baseline)] },
      },
    ];
  });
  const joined = (of: 'shares' | 'field' | 'forecast' | 'anybody'): Float64Array =>
    Float64Array.from(parts.flatMap((part) => part[of]));
  return {
    game: Int32Array.from(parts.flatMap(({ game }) => game)),
    ...{ shares: joined('shares'), field: joined('field') },
    ...{ forecast: joined('forecast'), anybody: joined('anybody') },
    bytes: parts.reduce((sum, { bytes }) => sum + bytes, 0) / parts.length,
  };
}

/** The forecast's losses less the printed shares', with its 95 % interval by games. */
export function leadOfForecast({ forecast, shares, game }: ReplayedReports): LossDifference {
  return lossDifference(forecast, shares, game, 0.95, 2000, seededRandom(1));
}

interface Games {
  readonly facts: TendencyPlays;
  readonly games: readonly ChartedGame[];
  readonly playerOf: Readonly<Record<Side, Int32Array>>;
  readonly players: readonly number[];
  readonly vocabulary: Vocabulary;
}

const nameOf = (player: number): string => `player-${player}`;

function chartsOf({ games }: Games, player: number): number[] {
  return [...games.keys()].filter((chart) => {
    const { homePlayerId, awayPlayerId } = games[chart] ?? {};
    return homePlayerId === nameOf(player) || awayPlayerId === nameOf(player);
  });
}

/** These games as an archive holds them. */
function newestFirst(snaps: ForecastSnaps, games: readonly number[]): Games {
  const { vocabulary, game } = snaps;
  const inTime = Array.from(game.keys());
  const rows = [...games].reverse().flatMap((wanted) => inTime.filter((play) => game[play] === wanted));
  const offense = Int32Array.from(rows, (play) => snaps.offense[play] ?? -1);
  const defense = Int32Array.from(rows, (play) => snaps.defense[play] ?? -1);
  const newest = games.at(-1) ?? 0;
  const facts = classifyPlays(
    picked(snaps.plays, rows, (play) => newest - (game[play] ?? 0)),
    vocabulary,
    DEFAULT_FOOTBALL_SETTINGS,
  );
  const homeOf = new Map<number, { home: number; away: number }>();
  facts.plays.chartIndex.forEach((chart, play) => {
    const [ball, other] = [offense[play] ?? -1, defense[play] ?? -1];
    homeOf.set(
      chart,
      facts.plays.offenseIsHome[play] === 1 ? { home: ball, away: other } : { home: other, away: ball },
    );
  });
  return {
    ...{ facts, vocabulary, playerOf: { offense, defense } },
    players: [...new Set(snaps.offense)].filter((player) => player >= 0).sort((a, b) => a - b),
    games: games.map((_, chart) => ({
      ...{ gameId: `game-${chart}`, eventId: null, playedOn: null },
      homePlayerId: nameOf(homeOf.get(chart)?.home ?? -1),
      awayPlayerId: nameOf(homeOf.get(chart)?.away ?? -1),
    })),
  };
}

/** These plays of a batch, in this order. */
function picked(plays: PlayColumns, rows: readonly number[], chartOf: (play: number) => number): PlayColumns {
  const columns = new Map<PlayFieldName, Column>();
  for (const [name, column] of plays.columns) {
    if ('values' in column) columns.set(name, { values: Int16Array.from(rows, (row) => column.values[row] ?? 0) });
    else if (!('starts' in column)) {
      columns.set(name, { codes: Int16Array.from(rows, (row) => column.codes[row] ?? -1), meanings: column.meanings });
    }
  }
  return new PlayColumns({
    charts: [...new Set(rows.map(chartOf))].map((chart) => ({ chartId: `chart-${chart}`, gameId: `game-${chart}` })),
    chartIndex: Int32Array.from(rows, chartOf),
    playNumber: Uint16Array.from(rows, (row) => plays.playNumber[row] ?? 0),
    orderInGame: Uint16Array.from(rows, (row) => plays.orderInGame[row] ?? 0),
    offenseIsHome: Uint8Array.from(rows, (row) => plays.offenseIsHome[row] ?? 0),
    columns,
  });
}

/** The tables of a report on one player; null where there is no forecast, or the player is not in the archive. */
function tablesOf(
  { facts, playerOf, players, vocabulary }: Games,
  dimension: DimensionName,
  player: number,
): { readonly printed: PredictedTable; readonly forecast: ForecastTable } | null {
  const side: Side = DIMENSION_NAMES.offense.some((name) => name === dimension) ? 'offense' : 'defense';
  const whose = playerOf[side];
  const model = fieldModel({ facts, side, vocabulary, playerOf: whose, players: Math.max(...players) + 1 });
  const own = { ...facts, counts: facts.counts.map((count, play) => (whose[play] === player ? count : 0)) };
  const profiled = profile({ plays: own, side, vocabulary, fieldModel: model, player, confidence: 0.9 });
  const printed = predictedTables({ facts: own, profile: profiled, fieldModel: model, player, vocabulary }).find(
    (table) => table.dimension === dimension,
  );
  if (printed === undefined) return null;
  const [planned] = planForecasts({ facts, playerOf, player, vocabulary }, [printed]);
  const [forecast] = planned === undefined ? [] : forecastTable(planned, freezeForecast(planned.task));
  return forecast === undefined ? null : { printed, forecast };
}
