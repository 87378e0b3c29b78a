import { starterVocabulary } from '../../charting/vocabulary.js';
import type { PlayFieldName, TermKind } from '../../charting/play-fields.js';
import { clockSituationCodes, DEFAULT_CLOCK_SETTINGS } from '../../football/clock-situations.js';
import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../tendencies/classify-plays.js';
import type { AskedPlays, FieldPlays } from '../../tendencies/decisions/asked-plays.js';
import { choice, columnsOfRows, termId, type Row } from '../../tendencies/sequences/testing/rows-to-columns.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { draw } from '../../tendencies/tells/testing/draws.js';
import { fieldModel } from '../../tendencies/field-model.js';
import { profile } from '../../tendencies/profile.js';
import type { HabitsInput, HabitSide } from '../habits/habits.js';
import { REPORT_SETTINGS } from '../report-sample.js';
import type { RoundReport } from '../round-report-shape.js';
import { assembleRoundReport, type ProfiledSide } from '../round-report.js';

// Test support: a league of players who are all alike, on both sides of the ball, each game with a plan of its own. Whatever
// is said of one against the others, and was not planted, is said of chance. It fills every field that a report's habits are read from.

export interface AlikeSettings {
  readonly seed: number;
  readonly players: number;
  /** Of each player. */
  readonly games: number;
  readonly snaps: number;
  /** Prior weight in plays by which a game's shares lie around everybody's; infinite for games without a plan. */
  readonly plan: number;
  /** Points of share by which the first player's balls, and those thrown and run at its defense, are forced off more often. */
  readonly planted: number;
}

const VOCABULARY = starterVocabulary();
const KNOWN = 0.9;

/** How a game is called: one list of shares a field. */
const TERMS = {
  formation: 6,
  motion: 4,
  offensivePersonnel: 3,
  callFamily: 6,
  tempo: 3,
  front: 4,
  shell: 4,
  coverage: 6,
  pressure: 4,
  pressureSide: 2,
  manualDefenderAction: 4,
} as const satisfies Partial<Record<PlayFieldName & TermKind, number>>;
const TERM_FIELDS = Object.keys(TERMS) as (keyof typeof TERMS)[];
const STARTS = 4;
const OFF_DESIGN = ['no', 'forced by a set edge', 'forced by penetration', 'read by design'];
const MOVES = [
  'line-shifted',
  'safeties-rotated',
  'play-mirrored',
  'check-to-run',
  'defense-timeout',
  'offense-timeout',
];
const MOVED = [0.15, 0.2, 0.15, 0.12, 0.02, 0.02];
const [GOES_FOR_IT, KICKS_AT_GOAL, HURRIED_CLOCK] = [0.35, 0.4, 0.5];
const SNAPS_OF_A_DRIVE = 6;
const DISTANCES = [1, 3, 5, 8, 12];
const SPOTS = [85, 65, 45, 25, 8];
const SCORES = [-14, -4, 0, 4, 14];

const FIELDS = [
  ...TERM_FIELDS,
  ...(['playType', 'quarter', 'clockSeconds', 'clockRunning', 'offenseTimeouts', 'defenseTimeouts'] as const),
  ...(['scoreDifference', 'down', 'distance', 'yardsToGoal', 'drive', 'preSnapAdjustments'] as const),
  ...(['manualDefenderStart', 'offDesign', 'snapResult', 'yardsGained'] as const),
] as const;

interface Shares {
  readonly terms: readonly (readonly number[])[];
  readonly starts: readonly number[];
  readonly offDesign: readonly number[];
  /** Chances of each move, of going for it, of a kick at goal and of a quick snap. */
  readonly chances: readonly number[];
}

/** The report on the first player, held against all the others. */
export function alikeReport(settings: AlikeSettings): RoundReport {
  const habits = alikeHabits(settings);
  return assembleRoundReport({
    playerId: 'player-1',
    eventId: 'event-1',
    round: 'semifinal',
    madeAt: '2031-05-02T18:30:00Z',
    codeVersion: '0.1.0',
    seed: settings.seed,
    settings: REPORT_SETTINGS,
    charts: habits.games.map(({ playedOn, rulesVersion }, game) => ({
      chartId: `c${game}`,
      gameId: `g${game}`,
      revision: 1,
      importance: 'group',
      ...{ playedOn, rulesVersion },
    })),
    offense: profiled('offense', habits, settings),
    defense: profiled('defense', habits, settings),
    habits,
  });
}

function profiled(side: Side, habits: HabitsInput, { players }: AlikeSettings): ProfiledSide {
  const { facts, field, player, confidence } = habits[side].asked;
  if (field === null) throw new Error('the league has a field');
  const model = fieldModel({ ...field, side, players, vocabulary: VOCABULARY });
  return {
    facts,
    profile: profile({ plays: facts, side, vocabulary: VOCABULARY, fieldModel: model, player, confidence }),
  };
}

/** What the habits of the first player are read from, held against all the others. */
export function alikeHabits(settings: AlikeSettings): HabitsInput {
  const random = seededRandom(settings.seed);
  const usual: Shares = {
    terms: TERM_FIELDS.map((field) => drawDirichlet(random, new Array<number>(TERMS[field]).fill(3))),
    starts: drawDirichlet(random, new Array<number>(STARTS).fill(3)),
    offDesign: [0.65, 0.15, 0.12, 0.08],
    chances: [...MOVED, GOES_FOR_IT, KICKS_AT_GOAL, HURRIED_CLOCK],
  };
  return {
    offense: alikeSide(random, usual, settings, 'offense'),
    defense: alikeSide(random, usual, settings, 'defense'),
    games: Array.from({ length: settings.games }, (_, game) => ({
      eventId: 'event-1',
      playedOn: `2031-04-${10 + game}`,
      rulesVersion: rulesOf(game, settings),
    })),
    fieldVersions: Array.from({ length: settings.players * settings.games }, (_, chart) =>
      rulesOf(chart % settings.games, settings),
    ),
    situations: DEFAULT_FOOTBALL_SETTINGS.situations,
    clock: (plays) => clockSituationCodes(plays, DEFAULT_CLOCK_SETTINGS, 900),
    menu: [],
  };
}

/** The rules change after half of everybody's games, and change nothing. */
function rulesOf(game: number, { games }: AlikeSettings): string {
  return game < games / 2 ? '3.0' : '3.1';
}

function alikeSide(random: RandomSource, usual: Shares, settings: AlikeSettings, side: Side): HabitSide {
  const { players, games, plan } = settings;
  const rows = Array.from({ length: players * games }, (_, chart) =>
    gameRows(
      random,
      planned(random, chart < games ? unlike(usual, settings.planted) : usual, plan),
      chart,
      settings,
      side,
    ),
  ).flat();
  const field: FieldPlays = {
    facts: classified(rows),
    playerOf: Int32Array.from(rows, ({ chart }) => Math.floor(chart / games)),
  };
  const asked: AskedPlays = {
    facts: classified(rows.filter(({ chart }) => chart < games)),
    ...{ field, player: 0, vocabulary: VOCABULARY, confidence: 0.9 },
  };
  return { asked, whole: asked };
}

function unlike(usual: Shares, planted: number): Shares {
  const [no = 0, forced = 0, ...others] = usual.offDesign;
  return { ...usual, offDesign: [no - planted, forced + planted, ...others] };
}

function classified(rows: readonly Row[]): FieldPlays['facts'] {
  return classifyPlays(columnsOfRows(rows, FIELDS), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

function planned(random: RandomSource, usual: Shares, plan: number): Shares {
  if (!Number.isFinite(plan)) return usual;
  const around = (shares: readonly number[]): readonly number[] =>
    drawDirichlet(
      random,
      shares.map((share) => Math.max(0.05, share * plan)),
    );
  return {
    terms: usual.terms.map(around),
    starts: around(usual.starts),
    offDesign: around(usual.offDesign),
    chances: usual.chances.map((chance) => around([chance, 1 - chance])[0] ?? 0),
  };
}

function gameRows(random: RandomSource, plan: Shares, chart: number, { snaps }: AlikeSettings, side: Side): Row[] {
  const chance = (at: number): boolean => random() < (plan.chances[at] ?? 0);
  let [score, timeouts] = [0, 3];
  return Array.from({ length: snaps }, (_, place): Row => {
    const quarter = 1 + Math.floor((4 * place) / snaps);
    const inQuarter = place - Math.ceil(((quarter - 1) * snaps) / 4);
    if (place % SNAPS_OF_A_DRIVE === 0) score = SCORES[draw(random, [0.2, 0.2, 0.2, 0.2, 0.2])] ?? 0;
    if (place === Math.floor(snaps / 2)) timeouts = 3;
    else if (timeouts > 0 && random() < 0.05) timeouts -= 1;
    const down = 1 + draw(random, [0.42, 0.3, 0.2, 0.08]);
    const spot = SPOTS[draw(random, [0.15, 0.3, 0.25, 0.2, 0.1])] ?? 50;
    const distance = Math.min(spot, down === 1 ? 10 : (DISTANCES[draw(random, [0.2, 0.2, 0.2, 0.2, 0.2])] ?? 5));
    const kicks = down === 4 && !chance(MOVES.length);
    const playType = kicks ? (chance(MOVES.length + 1) ? 'field goal' : 'punt') : 'scrimmage';
    const pace = chance(MOVES.length + 2) ? 0 : 8;
    const known = <Value>(value: Value): Value | null => (random() < KNOWN ? value : null);
    const yards = Math.round(-2 + 14 * random() ** 2 + (random() < 0.08 ? 20 : 0));
    const isSack = random() < 0.06;
    return {
      chart,
      order: place + 1,
      values: {
        playType: choice('playType', playType),
        ...{ quarter, down, distance, yardsToGoal: spot, scoreDifference: score },
        drive: 1 + Math.floor(place / SNAPS_OF_A_DRIVE),
        clockSeconds: Math.max(0, 890 - 55 * inQuarter - pace),
        clockRunning: choice('clockRunning', 'yes'),
        [side === 'offense' ? 'offenseTimeouts' : 'defenseTimeouts']: timeouts,
        ...(!kicks && {
          ...Object.fromEntries(
            TERM_FIELDS.map((field, at) => [field, known(termsOf(field)[draw(random, plan.terms[at] ?? [])] ?? null)]),
          ),
          manualDefenderStart: known(termsOf('pressureSource')[draw(random, plan.starts)] ?? null),
          preSnapAdjustments: MOVES.filter((__, move) => chance(move)).map((name) =>
            termId(`preSnapAdjustment.${name}`),
          ),
          offDesign: known(choice('offDesign', OFF_DESIGN[draw(random, plan.offDesign)] ?? 'no')),
          snapResult: termId(isSack ? 'snapResult.sacked' : 'snapResult.rushed'),
          yardsGained: isSack ? -6 : yards,
        }),
      },
    };
  });
}

const TERMS_OF = new Map<TermKind, readonly number[]>();

function termsOf(kind: TermKind): readonly number[] {
  const kept = TERMS_OF.get(kind) ?? VOCABULARY.rows(kind).map(({ id }) => id);
  TERMS_OF.set(kind, kept);
  return kept;
}
