import { starterVocabulary } from '../../charting/vocabulary.js';
import { clockSituationCodes, DEFAULT_CLOCK_SETTINGS } from '../../football/clock-situations.js';
import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../tendencies/classify-plays.js';
import type { AskedPlays } from '../../tendencies/decisions/asked-plays.js';
import { fieldModel } from '../../tendencies/field-model.js';
import { profile } from '../../tendencies/profile.js';
import { choice, columnsOfRows, termId, type Row } from '../../tendencies/sequences/testing/rows-to-columns.js';
import type { Side, TendencyPlays } from '../../tendencies/tendency-plays.js';
import { draw } from '../../tendencies/tells/testing/draws.js';
import { REPORT_SETTINGS } from '../report-sample.js';
import type { HabitSide } from '../habits/habits.js';
import type { ProfiledSide, RoundReportInput } from '../round-report.js';

// Test support: the film of one offense with known habits, as a report is made from it. It shares nothing with what finds
// them, and draws every parameter anew from its seed; each game has a plan of its own.

/** What is planted, in points of share as fractions; 0 plants nothing. */
export interface PlantedHabits {
  /** A run after this motion, whatever else was meant. */
  readonly tell: number;
  /** This answer to that move of the defense. */
  readonly answer: number;
  /** The first formation in the second half of the games. */
  readonly drift: number;
}

const GAMES = 12;
const SNAPS = 60;
/** Prior weights in plays: of a game's plan against the player's usual shares. */
const PLAN_WEIGHT = 40;

const FAMILIES = ['run', 'dropback-pass', 'quick-pass', 'play-action'].map((name) => termId(`callFamily.${name}`));
const FORMATIONS = ['two-by-two', 'three-by-one', 'bunch', 'pro'].map((name) => termId(`formation.${name}`));
const MOTIONS = ['none', 'jet', 'orbit'].map((name) => termId(`motion.${name}`));
const THEIRS = ['line-shifted', 'safeties-rotated', 'pressure-added'].map((name) =>
  termId(`preSnapAdjustment.${name}`),
);
const MINE = ['play-mirrored', 'check-to-run', 'back-kept-in'].map((name) => termId(`preSnapAdjustment.${name}`));

/** Terms of the starter vocabulary that carry the planted habits. */
export const PLANTED = {
  motion: MOTIONS[1] ?? -1,
  shown: THEIRS[1] ?? -1,
  answer: MINE[0] ?? -1,
  formation: FORMATIONS[0] ?? -1,
} as const;

const VOCABULARY = starterVocabulary();
const FIELDS = [
  'playType',
  'quarter',
  'down',
  'distance',
  'yardsToGoal',
  'formation',
  'motion',
  'preSnapAdjustments',
  'callFamily',
] as const;

/** The input of a report on that offense; it has no field and never defends. */
export function plantedReportInput(seed: number, planted: PlantedHabits): RoundReportInput {
  const random = seededRandom(seed);
  const facts = factsOf(rowsOf(random, planted));
  const nobody = factsOf([]);
  const games = Array.from({ length: GAMES }, (_, game) => ({
    eventId: 'event-1',
    playedOn: `2031-04-${10 + game}`,
    rulesVersion: '3.1',
  }));
  return {
    playerId: 'player-1',
    eventId: 'event-1',
    round: 'semifinal',
    madeAt: '2031-05-02T18:30:00Z',
    codeVersion: '0.1.0',
    seed,
    settings: REPORT_SETTINGS,
    charts: games.map(({ playedOn, rulesVersion }, game) => ({
      chartId: `c${game}`,
      gameId: `g${game}`,
      revision: 1,
      playedOn,
      importance: 'group',
      rulesVersion,
    })),
    offense: profiled('offense', facts),
    defense: profiled('defense', nobody),
    habits: {
      offense: habitSide(facts),
      defense: habitSide(nobody),
      games,
      fieldVersions: [],
      situations: DEFAULT_FOOTBALL_SETTINGS.situations,
      clock: (plays) => clockSituationCodes(plays, DEFAULT_CLOCK_SETTINGS, 900),
      menu: [],
    },
  };
}

function rowsOf(random: RandomSource, planted: PlantedHabits): Row[] {
  const usual = {
    families: drawDirichlet(random, [8, 6, 5, 4]),
    formations: drawDirichlet(random, [8, 6, 5, 4]),
    motions: drawDirichlet(random, [24, 10, 8]),
  };
  const moves = [...THEIRS, ...MINE].map(() => 0.08 + 0.2 * random());
  const inGame = (shares: readonly number[]): number[] =>
    drawDirichlet(
      random,
      shares.map((share) => Math.max(0.1, share * PLAN_WEIGHT)),
    );
  return Array.from({ length: GAMES }, (_, chart) => {
    const families = inGame(usual.families);
    const formations = inGame(usual.formations);
    const motions = inGame(usual.motions);
    const moved = moves.map((share) => share * (0.6 + 0.8 * random()));
    return Array.from({ length: SNAPS }, (_snap, place): Row => {
      const down = 1 + Math.floor(3 * random());
      const motion = MOTIONS[draw(random, motions)] ?? -1;
      const given = motion === PLANTED.motion && random() < planted.tell;
      const drifted = chart >= GAMES / 2 && random() < planted.drift;
      return {
        chart,
        order: place + 1,
        values: {
          playType: choice('playType', 'scrimmage'),
          quarter: 1 + Math.floor((4 * place) / SNAPS),
          down,
          distance: down === 1 ? 10 : 5,
          yardsToGoal: 60,
          formation: FORMATIONS[drifted ? 0 : draw(random, formations)] ?? null,
          motion,
          preSnapAdjustments: duel(random, moved, planted.answer),
          callFamily: FAMILIES[given ? 0 : draw(random, families)] ?? null,
        },
      };
    });
  }).flat();
}

/** Moves of the defense, then those of the offense; an answer that is planted comes last. */
function duel(random: RandomSource, shares: readonly number[], planted: number): number[] {
  const theirs = THEIRS.filter((_, place) => random() < (shares[place] ?? 0));
  const mine = MINE.filter((_, place) => random() < (shares[THEIRS.length + place] ?? 0));
  const answered = theirs.includes(PLANTED.shown) && random() < planted;
  return answered
    ? [...theirs, ...mine.filter((move) => move !== PLANTED.answer), PLANTED.answer]
    : [...theirs, ...mine];
}

function factsOf(rows: readonly Row[]): TendencyPlays {
  return classifyPlays(columnsOfRows(rows, FIELDS), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

function profiled(side: Side, facts: TendencyPlays): ProfiledSide {
  const model = fieldModel({
    facts,
    side,
    playerOf: new Int32Array(facts.plays.count),
    players: 1,
    vocabulary: VOCABULARY,
  });
  const { confidence } = REPORT_SETTINGS;
  return {
    facts,
    profile: profile({ plays: facts, side, vocabulary: VOCABULARY, fieldModel: model, player: 0, confidence }),
  };
}

function habitSide(facts: TendencyPlays): HabitSide {
  const asked: AskedPlays = {
    facts,
    field: null,
    player: -1,
    vocabulary: VOCABULARY,
    confidence: REPORT_SETTINGS.confidence,
  };
  return { asked, whole: asked };
}
