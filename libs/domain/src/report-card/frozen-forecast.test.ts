import { starterVocabulary } from '../charting/vocabulary.js';
import { freezeForecast } from '../forecast/frozen/freeze-forecast.js';
import { forecastTable, planForecasts, type ForecastSource } from '../reports/predictions/forecast-tables.js';
import type { ForecastTable, PredictedTable } from '../reports/predictions/predictions-shape.js';
import { reportInput } from '../reports/report-sample.js';
import { assembleRoundReport } from '../reports/round-report.js';
import type { RoundReport } from '../reports/round-report-shape.js';
import { chartedFacts, times, type ChartedRow } from '../tendencies/charted-rows.js';
import { foretoldPlays } from './foretold-plays.js';
import { matchPlays, type MatchPlays } from './match-plays.js';
import type { PooledReport } from './pooled-calibration.js';
import { reportCard, type ReportCardInput } from './report-card.js';
import { scoreTable } from './score-table.js';

const vocabulary = starterVocabulary();
const SNAP: ChartedRow = { down: 2, distance: 8, yardsToGoal: 60 };
const RUN: ChartedRow = { ...SNAP, called: 'run', yardsGained: 5, snapResult: 'snapResult.rushed' };
const PASS: ChartedRow = { ...SNAP, called: 'pass', yardsGained: 0, snapResult: 'snapResult.incomplete' };
const JET = { motion: 'motion.jet' } as const;
const JET_KEY = `term:${vocabulary.idOfCode('motion.jet')}`;

/** The opponent is at home and has the ball on every play; a chart a game. */
function matchOf(...games: readonly (readonly ChartedRow[])[]): MatchPlays {
  const played = games.map((_, game) => ({
    ...{ gameId: `game-${game}`, homePlayerId: 'opponent', awayPlayerId: 'ours' },
    ...{ eventId: 'event-1', playedOn: '2031-05-02' },
  }));
  const of = { facts: chartedFacts(...games), games: played, vocabulary, opponent: 'opponent' };
  return matchPlays(of, [...games.keys()]);
}

const CALLED = {
  side: 'offense',
  dimension: 'called',
  label: 'run or pass called',
  classes: ['run', 'pass'].map((valueKey) => ({ valueKey, label: valueKey })),
} as const;

const PRINTED: PredictedTable = {
  ...CALLED,
  rows: [{ situation: 'all snaps', known: 9, shares: [0.4, 0.6], fieldShares: [0.5, 0.5] }],
};

const EVEN = { anybodyShares: [0.5, 0.5] };

/** Half passes, but with jet motion three to one for this player, and two to one where motion is not known. */
const FORECAST: ForecastTable = {
  ...CALLED,
  learnedFrom: { calls: 900, games: 12, ofPlayer: 110 },
  start: { shares: [0.5, 0.5], ...EVEN },
  parts: [
    {
      reads: 'motion',
      rows: [
        { valueKey: JET_KEY, shares: [0.25, 0.75], ...EVEN },
        { valueKey: null, shares: [1 / 3, 2 / 3], ...EVEN },
      ],
    },
    { reads: 'situation', rows: [{ valueKey: '2nd and 7-10', shares: [0.5, 0.5], ...EVEN }] },
  ],
};

const passShares = (table: ForecastTable, ...rows: readonly ChartedRow[]): number[] => {
  const { report } = foretoldPlays(table, matchOf(rows));
  return [...report.probabilities].filter((_, at) => at % 2 === 1);
};

describe('the probabilities of a frozen forecast', () => {
  it('are the product of the rows that a play has, made to add up to 1', () => {
    const table = { ...FORECAST, start: { shares: [0.4, 0.6], ...EVEN } };
    // 0.6 × 0.75 / (0.6 × 0.75 + 0.4 × 0.25) = 9 / 11; 0.6 × 2 / (0.6 × 2 + 0.4) = 3 / 4.
    const [jet, unknown] = passShares(table, { ...PASS, ...JET }, PASS);
    expect(jet).toBeCloseTo(9 / 11, 12);
    expect(unknown).toBeCloseTo(3 / 4, 12);
  });

  it('are told nothing by a value that has no row', () => {
    expect(passShares(FORECAST, { ...PASS, motion: 'motion.orbit' })).toEqual([0.5]);
    expect(passShares(FORECAST, { ...PASS, ...JET, distance: 2 })[0]).toBeCloseTo(0.75, 12);
  });

  it('rule nothing out', () => {
    const sure = { valueKey: JET_KEY, shares: [1e-9, 1 - 1e-9], ...EVEN };
    const [pass] = passShares({ ...FORECAST, parts: [{ reads: 'motion', rows: [sure] }] }, { ...PASS, ...JET });
    // A thousandth of a run beside all of a pass.
    expect(pass).toBeCloseTo(1 / 1.001, 6);
  });

  it('are scored beside those of a player of whom nothing is known', () => {
    // Two passes and a run with jet: by hand (2 × 0.28768 + 1.38629) / 3 = 0.65389; ln 2 = 0.69315.
    const rows = [
      { ...PASS, ...JET },
      { ...PASS, ...JET },
      { ...RUN, ...JET },
    ];
    const score = scoreTable(FORECAST, matchOf(rows), 0.9, 1);
    expect(score?.by).toBe('forecast');
    expect(score?.report.logLoss).toBeCloseTo(0.65389, 5);
    expect(score?.baseline.logLoss).toBeCloseTo(0.69315, 5);
    expect(score?.words).toMatch(
      /^run or pass called, forecast: log loss 0\.654, the forecast of anybody 0\.693, on 3 plays; difference -0\.039 \(/,
    );
  });
});

const REPORT: RoundReport = { ...assembleRoundReport(reportInput([])), playerId: 'opponent' };

function cardOf(report: Partial<RoundReport>, of: Partial<ReportCardInput> = {}) {
  const match = matchOf([{ ...PASS, ...JET }, RUN, PASS]);
  return reportCard({
    ...{ report: { ...REPORT, ...report }, batch: match, charts: [0], planned: [], pool: [], confidence: 0.9, seed: 1 },
    ...of,
  });
}

describe('a card', () => {
  const coverage: PredictedTable = { ...PRINTED, side: 'defense', dimension: 'coverage', label: 'coverage played' };

  it('judges the forecast beside the shares that were printed, on the same plays, and says which is which', () => {
    const { scores, judged } = cardOf({ predicted: [PRINTED], forecast: [FORECAST] });
    expect(scores.map(({ by, plays }) => [by, plays])).toEqual([
      ['forecast', 3],
      ['shares', 3],
    ]);
    expect(judged).toMatch(/^Two kinds of probabilities are judged: the forecast/);
    expect(judged).toMatch(/learned from 900 calls of 12 games, 110 of them this player's\.$/);
  });

  it('says of what too few calls were known for a forecast', () => {
    const { judged } = cardOf({ predicted: [PRINTED, coverage], forecast: [FORECAST] });
    expect(judged).toMatch(/Of coverage played fewer than 400 calls were known, too few for a forecast/);
    expect(cardOf({ predicted: [PRINTED], forecast: [] }).judged).toMatch(/^Of run or pass called fewer than 400/);
  });

  it('judges a report from before forecasts were kept by its printed shares alone', () => {
    const { scores, judged } = cardOf({ predicted: [PRINTED] });
    expect(scores.map(({ by }) => by)).toEqual(['shares']);
    expect(judged).toBe('The report keeps no forecast, so the shares that it printed are judged alone.');
    expect(cardOf({}).judged).toBeNull();
  });

  it('pools the calibration of forecasts, and of printed shares where there is none', () => {
    const report: PooledReport = {
      ...{ playerId: 'opponent', eventId: 'event-1', madeAt: '2031-05-01T00:00:00Z', evidence: [], forPlayer: null },
      ...{ predicted: [PRINTED], forecast: null },
    };
    const pooled = (forecast: PooledReport['forecast']) => cardOf({}, { pool: [{ ...report, forecast }] }).calibration;
    expect(pooled([FORECAST])).toMatchObject({ reports: 1, byForecast: 1, plays: 3 });
    expect(pooled([FORECAST]).words).toMatch(/^1 report \(by the forecast\), 1 game, 3 plays, run or pass/);
    expect(pooled([FORECAST]).calibration?.bins.map(({ meanForecast }) => meanForecast)).not.toContain(0.6);
    for (const forecast of [null, []]) {
      expect(pooled(forecast)).toMatchObject({ reports: 1, byForecast: 0 });
      expect(pooled(forecast).calibration?.bins).toMatchObject([{ forecasts: 3, meanForecast: 0.6 }]);
    }
  });
});

describe('a forecast that is frozen', () => {
  /** Two players; jet gives the first one's passes away, more than the other's. */
  const game = (jets: number): ChartedRow[] => [
    ...times(jets, { ...PASS, ...JET }),
    ...times(40 - jets, PASS),
    ...times(40, { ...RUN, motion: 'motion.orbit' }),
  ];
  const facts = chartedFacts(...Array.from({ length: 8 }, (_, place) => game(place % 2 === 0 ? 30 : 20)));
  const first = Int32Array.from(facts.plays.chartIndex, (chart) => chart % 2);
  const source: ForecastSource = {
    ...{ facts, vocabulary, player: 0 },
    playerOf: { offense: first, defense: first.map((player) => 1 - player) },
  };
  const frozen = (of: Partial<ForecastSource> = {}): ForecastTable[] =>
    planForecasts({ ...source, ...of }, [PRINTED]).flatMap((plan) => forecastTable(plan, freezeForecast(plan.task)));
  const [table] = frozen();
  if (table === undefined) throw new Error('there is a forecast');

  it('is the same for the same archive, and plain data', () => {
    expect(frozen()).toEqual([table]);
    expect(JSON.parse(JSON.stringify(table))).toEqual(table);
  });

  it('has rows above 0 that add up to 1, of what shows before the call', () => {
    expect(table.parts.map(({ reads }) => reads)).toContain('motion');
    for (const { shares, anybodyShares } of [table.start, ...table.parts.flatMap(({ rows }) => rows)]) {
      for (const row of [shares, anybodyShares]) {
        expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 3);
        expect(Math.min(...row)).toBeGreaterThan(0);
      }
    }
  });

  it('tells the cue that the calls follow', () => {
    const [jet, orbit] = passShares(table, { ...PASS, ...JET }, { ...PASS, motion: 'motion.orbit' });
    expect(jet).toBeGreaterThan(0.9);
    expect(orbit).toBeLessThan(0.1);
    expect(table.learnedFrom).toEqual({ calls: 640, games: 8, ofPlayer: 320 });
  });

  it('of a player whom the archive does not know is the forecast of anybody', () => {
    const [unknown] = frozen({ player: -1 });
    expect(unknown?.start.shares).toEqual(unknown?.start.anybodyShares);
    expect(unknown?.learnedFrom.ofPlayer).toBe(0);
    expect(unknown?.start.anybodyShares).toEqual(table.start.anybodyShares);
  });

  it('is none where fewer than 400 calls are known', () => {
    const few = chartedFacts(...Array.from({ length: 4 }, () => game(30)));
    const whose = Int32Array.from(few.plays.chartIndex, (chart) => chart % 2);
    expect(frozen({ facts: few, playerOf: { offense: whose, defense: whose } })).toEqual([]);
  });

  it('rests on whole games alone of an archive of more plays than are looked at', () => {
    const long = chartedFacts(...Array.from({ length: 6 }, () => times(4_500, RUN)));
    const whose = new Int32Array(long.plays.count);
    const [plan] = planForecasts({ ...source, facts: long, playerOf: { offense: whose, defense: whose } }, [PRINTED]);
    expect(plan?.task.calls.facts.plays.count).toBe(3 * 4_500);
    expect(plan?.task.calls.playerOf).toHaveLength(3 * 4_500);
    expect(plan?.task.calls.rows).toHaveLength(3 * 4_500);
  });
});
