import fc from 'fast-check';
import { starterVocabulary } from '../charting/vocabulary.js';
import type { PredictedTell } from '../reports/habits/habits-shape.js';
import type { PredictedTable } from '../reports/predictions/predictions-shape.js';
import { predictedTables } from '../reports/predictions/predicted-tables.js';
import { reportInput } from '../reports/report-sample.js';
import { assembleRoundReport } from '../reports/round-report.js';
import type { RoundReport } from '../reports/round-report-shape.js';
import { chartedFacts, times, type ChartedRow } from '../tendencies/charted-rows.js';
import { fieldModel } from '../tendencies/field-model.js';
import { profile } from '../tendencies/profile.js';
import { judgedGames, type ChartedGame, type ForetellingReport } from './judged-games.js';
import { matchPlays, type MatchPlays } from './match-plays.js';
import { plannedAgainstCalled, type PlannedCall } from './planned-calls.js';
import { reportCard, type ReportCardInput } from './report-card.js';
import { scoreTable } from './score-table.js';

const SNAP: ChartedRow = { down: 2, distance: 8, yardsToGoal: 60 };
const RUN: ChartedRow = { ...SNAP, called: 'run', yardsGained: 5, snapResult: 'snapResult.rushed' };
const PASS: ChartedRow = { ...SNAP, called: 'pass', yardsGained: 0, snapResult: 'snapResult.incomplete' };

/** The opponent is at home and has the ball on every play; a chart a game. */
function matchOf(...games: readonly (readonly ChartedRow[])[]): MatchPlays {
  const facts = chartedFacts(...games);
  const played = games.map((_, game) => aGame({ gameId: `game-${game}` }));
  const of = { facts, games: played, vocabulary: starterVocabulary(), opponent: 'opponent' };
  return matchPlays(of, [...games.keys()]);
}

function aGame(of: Partial<ChartedGame> = {}): ChartedGame {
  return {
    ...{ gameId: 'game-0', homePlayerId: 'opponent', awayPlayerId: 'ours' },
    ...{ eventId: 'event-1', playedOn: '2031-05-02', ...of },
  };
}

function calledTable(passShare: number, fieldPass = 0.5): PredictedTable {
  return {
    side: 'offense',
    dimension: 'called',
    label: 'run or pass called',
    classes: ['run', 'pass'].map((valueKey) => ({ valueKey, label: valueKey })),
    rows: [
      { situation: 'all snaps', known: 9, shares: [1 - passShare, passShare], fieldShares: [1 - fieldPass, fieldPass] },
    ],
  };
}

describe('the scores of a frozen table', () => {
  it('are the mean of minus the natural logarithm (Good 1952), and the mean square (Brier 1950)', () => {
    // Two passes and a run foretold at 0.8: by hand (2 × 0.22314 + 1.60944) / 3 = 0.68524; (2 × 0.04 + 0.64) / 3 = 0.24.
    // The field at 0.5: ln 2 = 0.69315; 0.25.
    const score = scoreTable(calledTable(0.8), matchOf([PASS, PASS, RUN]), 0.9, 1);
    expect(score?.report.logLoss).toBeCloseTo(0.68524, 5);
    expect(score?.report.brier).toBeCloseTo(0.24, 12);
    expect(score?.baseline.logLoss).toBeCloseTo(0.69315, 5);
    expect(score?.baseline.brier).toBeCloseTo(0.25, 12);
    expect(score?.logLossDifference).toMatchObject({ drawn: 'plays', clusters: 3 });
    expect(score?.words).toMatch(
      /^run or pass called, printed shares: log loss 0\.685, the field's shares 0\.693, on 3 plays; difference -0\.008 \(/,
    );
  });

  it('leave out what is not known, and are none where nothing is', () => {
    expect(scoreTable(calledTable(0.8), matchOf([PASS, RUN, SNAP]), 0.9, 1)).toMatchObject({ plays: 2, snaps: 3 });
    expect(scoreTable(calledTable(0.8), matchOf([SNAP]), 0.9, 1)).toBeNull();
  });

  it('draw whole games where there are several, else whole drives, else plays', () => {
    const drives = [1, 1, 2].map((drive) => ({ ...PASS, drive }));
    const drawn = (match: MatchPlays) => scoreTable(calledTable(0.8), match, 0.9, 1)?.logLossDifference;
    expect(drawn(matchOf([PASS], [RUN]))).toMatchObject({ drawn: 'games', clusters: 2 });
    expect(drawn(matchOf(drives))).toMatchObject({ drawn: 'drives', clusters: 2 });
    expect(drawn(matchOf([PASS]))).toMatchObject({ drawn: 'plays', clusters: 1, interval: null });
  });

  it('of a report that says what the field says differ by nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.array(fc.boolean(), { minLength: 2, maxLength: 30 }),
        (share, calls) => {
          const match = matchOf(calls.map((isPass) => (isPass ? PASS : RUN)));
          const score = scoreTable(calledTable(share, share), match, 0.9, 3);
          expect(score?.logLossDifference).toMatchObject({ mean: 0, interval: { lower: 0, upper: 0 } });
        },
      ),
      { numRuns: 25 },
    );
  });

  it('are best, of all constant forecasts, at the share that came (a proper score)', () => {
    const match = matchOf([...times(3, PASS), ...times(7, RUN)]);
    const at = (share: number): number => scoreTable(calledTable(share), match, 0.9, 1)?.report.logLoss ?? NaN;
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.98, noNaN: true }), (share) => {
        expect(at(share)).toBeGreaterThanOrEqual(at(0.3) - 1e-12);
      }),
      { numRuns: 25 },
    );
  });
});

describe('the frozen probabilities', () => {
  const own = chartedFacts([...times(9, PASS), ...times(3, RUN)]);
  const vocabulary = starterVocabulary();
  const others = chartedFacts([...times(30, PASS), ...times(70, RUN)]);
  const model = fieldModel({
    facts: others,
    side: 'offense',
    playerOf: others.plays.chartIndex,
    players: 1,
    vocabulary,
  });
  const of = { plays: own, side: 'offense', vocabulary, fieldModel: model, player: -1, confidence: 0.9 } as const;
  const tables = predictedTables({ facts: own, profile: profile(of), fieldModel: model, player: -1, vocabulary });
  const called = tables.find(({ dimension }) => dimension === 'called');

  it('hold every situation, add up to one and rule nothing out', () => {
    expect(called?.rows).toHaveLength(own.situationNames.length + 1);
    for (const { shares, fieldShares } of tables.flatMap(({ rows }) => rows)) {
      for (const row of [shares, fieldShares]) {
        expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 5);
        expect(Math.min(...row)).toBeGreaterThan(0);
      }
    }
  });

  it('lie between the raw share and the field, whose own has a play of every class added', () => {
    const row = called?.rows.find(({ situation }) => situation === 'all snaps');
    // 31 of 102.
    expect(row?.fieldShares[1]).toBeCloseTo(31 / 102, 6);
    expect(row?.shares[1]).toBeGreaterThan(31 / 102);
    expect(row?.shares[1]).toBeLessThanOrEqual(0.75);
  });

  it("are the field's where the player was never seen", () => {
    const row = called?.rows.find(({ known, situation }) => known === 0 && situation !== 'all snaps');
    expect(row?.shares).toEqual(row?.fieldShares);
  });

  it('have no table of what nobody charted', () => {
    expect(tables.map(({ dimension }) => dimension)).toEqual(['called']);
  });
});

describe('the games that a report is judged by', () => {
  const report: ForetellingReport = {
    ...{ playerId: 'opponent', eventId: 'event-1', madeAt: '2031-05-02T18:30:00Z' },
    ...{ evidence: [{ gameId: 'seen' }], forPlayer: 'ours' },
  };
  const judged = (game: Partial<ChartedGame>, gameId: string | null = null, of = report): boolean =>
    judgedGames(of, [aGame(game)], gameId).length === 1;

  it('are those between the two, of its event, from its day on, outside its evidence', () => {
    expect(judged({})).toBe(true);
    expect(judged({ homePlayerId: 'ours', awayPlayerId: 'opponent' })).toBe(true);
    expect(judged({ playedOn: null })).toBe(true);
    expect(judged({ playedOn: '2031-05-01' })).toBe(false);
    expect(judged({ gameId: 'seen' })).toBe(false);
    expect(judged({ eventId: 'event-2' })).toBe(false);
    expect(judged({ awayPlayerId: 'somebody' })).toBe(false);
    expect(judged({ homePlayerId: 'somebody' })).toBe(false);
  });

  it('are from the day that the report stands on, and of anybody where it was made for nobody', () => {
    expect(judged({ playedOn: '2031-04-30' }, null, { ...report, asOf: '2031-04-30' })).toBe(true);
    expect(judged({ awayPlayerId: 'somebody' }, null, { ...report, forPlayer: null })).toBe(true);
  });

  it('are the one that is asked for, if it is of the opponent and not in the evidence', () => {
    expect(judged({ eventId: 'event-2', playedOn: '2030-01-01' }, 'game-0')).toBe(true);
    expect(judged({ gameId: 'seen' }, 'seen')).toBe(false);
    expect(judged({ homePlayerId: 'somebody' }, 'game-0')).toBe(false);
  });
});

/** A report that listed one tell: 20 of 25 runs with motion, 30 of 75 without. */
function tellingReport(direction: 'more' | 'less' = 'more'): RoundReport {
  const tell: PredictedTell = {
    ...{ cue: ['motion'], cueKey: `term:${starterVocabulary().idOfCode('motion.jet')}`, dimension: 'called' },
    ...{ callKey: 'run', direction, countWithout: 30, playsWithout: 75 },
  };
  const claim = {
    id: 'tell',
    side: 'offense',
    topic: 'tells',
    label: 'run with motion jet',
    words: '',
    count: 20,
  } as const;
  return {
    ...assembleRoundReport(reportInput([])),
    playerId: 'opponent',
    habits: {
      givesAway: [
        {
          ...{ topic: 'tells', side: 'offense', title: 'Tells', note: '' },
          claims: [
            {
              ...{ ...claim, known: 25, interval: null, fieldShare: null, fieldKnown: 0, games: 3 },
              ...{ status: 'established', plays: [], tell },
            },
          ],
        },
      ],
      ...{ sequences: [], changed: [], events: [], overEvents: [] },
    },
  };
}

function cardOf(report: RoundReport, match: MatchPlays, of: Partial<ReportCardInput> = {}) {
  return reportCard({
    ...{ report, batch: match, charts: [...match.games.keys()], planned: [], pool: [], confidence: 0.9, seed: 1 },
    ...of,
  });
}

describe('a tell', () => {
  const jet = (row: ChartedRow): ChartedRow => ({ ...row, motion: 'motion.jet' });
  const outcome = (runs: number, passes: number) =>
    cardOf(tellingReport(), matchOf([...times(runs, jet(RUN)), ...times(passes, jet(PASS)), PASS])).tells[0]?.outcome;

  it('held where the interval leaves out the share without the cue, broke where it leaves out what was foretold', () => {
    // Wilson at 90 %: 6 of 6 from 0.689, above 0.4; 1 of 6 up to 0.475, below 0.8; 1 of 2 holds both.
    expect(outcome(6, 0)).toBe('held');
    expect(outcome(1, 5)).toBe('broke');
    expect(outcome(1, 1)).toBe('too few to say');
    expect(outcome(0, 0)).toBe('cue not seen');
  });

  it('is told in counts below ten', () => {
    const { tells } = cardOf(tellingReport(), matchOf(times(6, jet(RUN))));
    expect(tells[0]?.words).toBe(
      'offense, run with motion jet: foretold 20 of 25 with it, 30 of 75 without; seen 6 of 6: held',
    );
  });
});

describe('an answer', () => {
  const mesh = { ...PASS, concept: 'concept.mesh' };
  const idOf = (code: string): number => starterVocabulary().idOfCode(code);
  const expected = { points: -0.1, interval: { lower: -0.4, upper: 0.2 } };
  const line = { words: '', count: 0, plays: [], installed: true, expected };

  /** Recommended against mesh: cover 3, and cover 4. */
  const report: RoundReport = {
    ...tellingReport(),
    answers: {
      ...{ restsOn: '', mixes: [] },
      calls: [
        {
          ...{ id: 'mesh', side: 'offense', label: 'mesh', terms: { concept: idOf('concept.mesh') }, words: '' },
          games: [],
          answers: [
            { ...line, id: 'three', label: 'Narrow Door', terms: { coverage: idOf('coverage.cover-3') } },
            {
              ...{ ...line, id: 'four', label: 'Wide Door', installed: false },
              terms: { coverage: idOf('coverage.cover-4') },
            },
          ],
        },
      ],
    },
  };

  it('is judged where the call met it, by what it gave there', () => {
    const rows = [
      { ...mesh, coverage: 'coverage.cover-3' },
      { ...mesh, coverage: 'coverage.cover-3', yardsGained: 12, snapResult: 'snapResult.complete' },
      { ...mesh, coverage: 'coverage.cover-1' },
      // Nothing of the defense was seen, so it was no chance; and another call is none either.
      mesh,
      { ...PASS, concept: 'concept.slants', coverage: 'coverage.cover-3' },
    ];
    const match = matchOf(rows);
    const pointsAdded = Float64Array.from([-0.5, 1.1, 0.3, 0.4, 0.7]);
    const { answers } = cardOf(report, { ...match, facts: { ...match.facts, pointsAdded } });
    expect(answers).toEqual([
      {
        ...{ id: 'three', side: 'offense', call: 'mesh', answer: 'Narrow Door', installed: true, expected },
        ...{ chances: 3, plays: 2, pointsPlays: 2, successes: 1, trials: 2 },
        points: expect.closeTo(0.3, 12),
        words:
          'Narrow Door against mesh (their offense): used on 2 of 3 chances; gave +0.30 on 2 plays, success of the offense 1 of 2; expected -0.10 (-0.40 to +0.20) points a play; too few to say',
      },
      {
        ...{ id: 'four', side: 'offense', call: 'mesh', answer: 'Wide Door', installed: false, expected },
        ...{ chances: 3, plays: 0, points: null, pointsPlays: 0, successes: 0, trials: 0 },
        words:
          'Wide Door against mesh (their offense): not used in 3 chances; expected -0.10 (-0.40 to +0.20) points a play',
      },
    ]);
  });

  it('that the call never met is said to have had no chance', () => {
    const [answer] = cardOf(report, matchOf([RUN, mesh])).answers;
    expect(answer).toMatchObject({ chances: 0, plays: 0 });
    expect(answer?.words).toMatch(/the call never came with what met it seen/);
  });
});

describe('planned against called', () => {
  const cover = (name: string): number => starterVocabulary().idOfCode(`coverage.${name}`);
  const meant = (orderInGame: number, coverage: string): PlannedCall => ({
    ...{ gameId: 'game-0', orderInGame, side: 'defense', coverage: cover(coverage) },
    ...{ concept: null, callFamily: null, front: null, pressure: null },
  });

  it('counts as meant, otherwise and not seen, success from our view', () => {
    const rows = [
      { ...PASS, coverage: 'coverage.cover-3' },
      { ...RUN, yardsGained: 9, coverage: 'coverage.cover-1' },
      PASS,
    ];
    const planned = plannedAgainstCalled(matchOf(rows), [
      meant(1, 'cover-3'),
      meant(2, 'cover-3'),
      meant(3, 'cover-3'),
    ]);
    expect(planned).toMatchObject({
      snaps: 3,
      sides: [
        {
          asMeant: { plays: 1, successes: 1, trials: 1 },
          otherwise: { plays: 1, successes: 0, trials: 1 },
          notSeen: 1,
        },
      ],
    });
    expect(plannedAgainstCalled(matchOf(rows), [])).toBeNull();
  });
});

describe('a card', () => {
  it('without a game awaits one and gives no verdict', () => {
    const card = cardOf(tellingReport(), matchOf([RUN]), { charts: [] });
    expect(card).toMatchObject({ games: [], scores: [], tells: [], planned: null, apart: { fouls: [], kicks: [] } });
    expect(card.awaited).toMatch(/before reports kept their probabilities/);
    expect(card.verdict).toBe('Nothing is judged yet.');
  });

  it('says that one match cannot confirm or refute, and keeps fouls, kicks and decisions apart', () => {
    const rows: ChartedRow[] = [
      RUN,
      { ...PASS, down: 4, distance: 2, foulSide: 'defense', foulAnswer: 'accepted', foulYards: 5 },
      { playType: 'field goal', down: 4, snapResult: 'snapResult.kick-good' },
    ];
    const { verdict, apart } = cardOf(tellingReport(), matchOf(rows));
    expect(verdict).toMatch(/^One match cannot confirm or refute/);
    expect(apart.fouls).toEqual([{ whose: 'ours', count: 1, words: '1 foul, 1 accepted, 5 yards' }]);
    expect(apart.kicks).toEqual([{ whose: 'opponent', count: 1, words: '1 field goal, good 1 of 1' }]);
    expect(apart.decisions[0]).toMatchObject({ whose: 'opponent', count: 2 });
    expect(apart.decisions[0]?.words).toMatch(/^fourth downs: went for it 1 of 2/);
  });

  it('pools the calibration over reports, each game once by the newest report', () => {
    const match = matchOf([PASS, PASS, RUN], [RUN, RUN]);
    const pooled = {
      ...{ playerId: 'opponent', eventId: 'event-1', madeAt: '2031-05-01T00:00:00Z', evidence: [], forPlayer: null },
      predicted: [calledTable(0.6)],
      forecast: null,
    };
    const { calibration } = cardOf(tellingReport(), match, {
      pool: [pooled, { ...pooled, predicted: [calledTable(0.1)] }],
    });
    expect(calibration).toMatchObject({ reports: 1, games: 2, plays: 5 });
    // All five foretold at 0.6; two of them came.
    expect(calibration.calibration?.bins).toEqual([
      { from: 0.5, to: 0.6, forecasts: 5, meanForecast: 0.6, happened: 0.4 },
    ]);
  });

  it('survives JSON unchanged', () => {
    const card = cardOf({ ...tellingReport(), predicted: [calledTable(0.7)] }, matchOf([PASS, RUN, RUN]));
    expect(JSON.parse(JSON.stringify(card))).toEqual(card);
  });
});
