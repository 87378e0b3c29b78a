import { between, chance, clamp } from './randomness.js';
import type { Adjustment, FieldValues, Hash, Importance, Side, Situation, TruePlay } from './snap.js';
import type { Habits } from './tendencies.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

export interface GameSetup {
  readonly event: number;
  readonly importance: Importance;
  readonly quarterMinutes: number;
  /** A game that its loser may leave early. */
  readonly mayEndEarly: 'conceded' | 'disconnected' | null;
}

/** The one mutable thing of a simulated game. */
export interface GameState {
  readonly random: RandomSource;
  readonly setup: GameSetup;
  readonly habits: Readonly<Record<Side, Habits>>;
  readonly plays: TruePlay[];
  readonly score: Record<Side, number>;
  readonly timeouts: Record<Side, number>;
  readonly firstReceiver: Side;
  quarter: number;
  clock: number;
  clockRuns: boolean;
  ball: Side;
  next: 'kickoff' | 'free kick' | 'scrimmage' | 'try' | 'over';
  down: number;
  distance: number;
  yardsToGoal: number;
  hash: Hash;
  drive: number;
  before: Situation['before'];
  firstOfDrive: boolean;
  videoSecond: number;
  ending: 'completed' | 'conceded' | 'disconnected';
}

const KICKOFF_FROM = 65;

export function otherSide(side: Side): Side {
  return side === 'home' ? 'away' : 'home';
}

export function kickOffState(
  random: RandomSource,
  setup: GameSetup,
  habits: Readonly<Record<Side, Habits>>,
): GameState {
  const firstReceiver: Side = chance(random, 0.5) ? 'home' : 'away';
  return {
    random,
    setup,
    habits,
    plays: [],
    score: { home: 0, away: 0 },
    timeouts: { home: 3, away: 3 },
    firstReceiver,
    quarter: 1,
    clock: setup.quarterMinutes * 60,
    clockRuns: false,
    ball: otherSide(firstReceiver),
    next: 'kickoff',
    down: 1,
    distance: 10,
    yardsToGoal: KICKOFF_FROM,
    hash: 'middle',
    drive: 0,
    before: null,
    firstOfDrive: true,
    videoSecond: between(random, 35, 90),
    ending: 'completed',
  };
}

export function scoreDifference({ score, ball }: GameState): number {
  return score[ball] - score[otherSide(ball)];
}

/** Hurry in the last part of a half, scaled to the length of the quarter; burn the clock when ahead late. */
export function paceOf(game: GameState): Situation['pace'] {
  const late = game.setup.quarterMinutes * 12;
  const ahead = scoreDifference(game);
  if (game.quarter === 2 && game.clock <= late) return 'hurry';
  if (game.quarter === 4 && ahead <= 0 && game.clock <= (ahead < 0 ? 1.6 * late : late)) return 'hurry';
  return game.quarter === 4 && ahead > 0 && game.clock <= 2.2 * late ? 'burn' : 'normal';
}

export function situationOf(game: GameState): Situation {
  return {
    event: game.setup.event,
    importance: game.setup.importance,
    quarter: game.quarter,
    clockSeconds: game.clock,
    down: game.down,
    distance: game.distance,
    yardsToGoal: game.yardsToGoal,
    hash: game.hash,
    scoreDifference: scoreDifference(game),
    pace: paceOf(game),
    firstOfDrive: game.firstOfDrive,
    before: game.before,
  };
}

interface RecordedParts {
  readonly situation?: Situation;
  readonly adjustments?: readonly Adjustment[];
  readonly success?: boolean | undefined;
  /** Seconds between the line-up and the snap in the video. */
  readonly wait?: number;
}

/** Writes a play down with the situation it was played in; call it before anything moves. */
export function record(game: GameState, values: FieldValues, parts: RecordedParts = {}): void {
  const hasDown = game.next === 'scrimmage';
  const wait = parts.wait ?? between(game.random, 3, 9);
  const lineUpSecond = game.videoSecond + between(game.random, 9, 20);
  game.videoSecond = lineUpSecond + wait;
  game.plays.push({
    offense: game.ball,
    values: {
      quarter: game.quarter,
      clockSeconds: game.clock,
      clockRunning: game.clockRuns ? 'yes' : 'no',
      offenseTimeouts: game.timeouts[game.ball],
      defenseTimeouts: game.timeouts[otherSide(game.ball)],
      scoreDifference: scoreDifference(game),
      yardsToGoal: game.yardsToGoal,
      hash: game.hash,
      ...(hasDown ? { down: game.down, distance: game.distance } : {}),
      ...(hasDown || game.next === 'try' ? { drive: game.drive } : {}),
      lineUpSecond,
      snapSecond: game.videoSecond,
      ...values,
    },
    adjustments: parts.adjustments ?? [],
    situation: parts.situation ?? null,
    success: parts.success,
  });
}

/** Adds to what the last recorded play led to. */
export function ledTo(game: GameState, ...what: string[]): void {
  const last = game.plays.at(-1);
  if (last !== undefined && what.length > 0) last.values.ledTo = [...(last.values.ledTo ?? []), ...what];
}

export function startDrive(game: GameState, side: Side, yardsToGoal: number): void {
  game.ball = side;
  game.next = 'scrimmage';
  game.yardsToGoal = clamp(yardsToGoal, 1, 99);
  game.down = 1;
  game.distance = Math.min(10, game.yardsToGoal);
  game.drive += 1;
  game.before = null;
  game.firstOfDrive = true;
  game.clockRuns = false;
}

export function touchdown(game: GameState, side: Side): void {
  game.score[side] += 6;
  game.ball = side;
  game.next = 'try';
  game.clockRuns = false;
  endOvertimeAfterScore(game);
}

export function kickOff(game: GameState, kicker: Side): void {
  game.ball = kicker;
  game.next = 'kickoff';
  game.yardsToGoal = KICKOFF_FROM;
  game.hash = 'middle';
  game.clockRuns = false;
}

/** In overtime the first score wins. */
export function endOvertimeAfterScore(game: GameState): void {
  if (game.quarter > 4) endGame(game);
}

function endGame(game: GameState): void {
  game.next = 'over';
  ledTo(game, 'end of game');
}

export function leave(game: GameState, how: 'conceded' | 'disconnected'): void {
  game.ending = how;
  game.next = 'over';
  ledTo(game, 'conceded or disconnected');
}

/** The seconds that a play itself takes. */
export function playTime(game: GameState, seconds: number): void {
  game.clock = Math.max(0, game.clock - seconds);
  game.videoSecond += seconds + between(game.random, 2, 12);
}

/** The seconds between two plays while the clock runs, and what the sides do about them. */
export function betweenPlays(game: GameState): void {
  if (game.next === 'try' || game.next === 'over') return;
  if (game.clock > 0 && game.clockRuns && !timeoutTaken(game)) {
    const usual = 3 * game.setup.quarterMinutes - 1;
    const pace = paceOf(game);
    const gap =
      pace === 'hurry'
        ? between(game.random, 4, 8)
        : pace === 'burn'
          ? between(game.random, 16, 22)
          : usual + between(game.random, -4, 4);
    game.clock = Math.max(0, game.clock - gap);
  }
  if (game.clock === 0) endPeriod(game);
}

function timeoutTaken(game: GameState): boolean {
  const pace = paceOf(game);
  const taker = pace === 'hurry' ? game.ball : pace === 'burn' ? otherSide(game.ball) : undefined;
  if (taker === undefined || game.timeouts[taker] === 0 || !chance(game.random, 0.45)) return false;
  game.timeouts[taker] -= 1;
  game.clockRuns = false;
  return true;
}

function endPeriod(game: GameState): void {
  const tied = game.score.home === game.score.away;
  if (game.quarter === 4 && !tied) {
    endGame(game);
    return;
  }
  if (game.quarter === 2 || game.quarter === 4) {
    ledTo(game, 'end of half');
    game.timeouts.home = game.timeouts.away = game.quarter === 2 ? 3 : 2;
    kickOff(game, game.quarter === 2 || chance(game.random, 0.5) ? game.firstReceiver : otherSide(game.firstReceiver));
  }
  game.quarter += 1;
  game.clock = game.setup.quarterMinutes * 60;
  game.clockRuns = false;
}
