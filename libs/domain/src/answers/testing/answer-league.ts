import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { drawNormal } from '../../statistics/draw-gamma.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import type { CodedPlays } from '../coded-plays.js';

// Test support: a league whose calls and answers have a known worth. Its parameters are drawn anew for each seed.

export interface AnswerLeagueSettings {
  readonly seed: number;
  readonly calls: number;
  readonly answers: number;
  readonly players: number;
  readonly games: number;
  /** Plays by call x answer on average; who likes what makes some cells much thicker than others. */
  readonly playsACell: number;
  /** True standard deviation between the answers to one call, in points. */
  readonly spread: number;
  /** Part of that spread's variance that an answer has whatever it meets; the rest belongs to the pair. */
  readonly general: number;
  /** Standard deviations between calls, offenses, defenses, sides of a game, and plays. */
  readonly deviations: {
    readonly call: number;
    readonly offense: number;
    readonly defense: number;
    readonly gameSide: number;
    readonly play: number;
  };
  /** Dirichlet weight by which players' tastes in calls and answers lie around even ones. */
  readonly taste: number;
  /** Groups of situations in which an answer gives more or less than everywhere; one group when left out. */
  readonly bySituation?: {
    /** Share of the plays in each. */
    readonly shares: readonly number[];
    /** Standard deviation of an answer's worth between them, in points, and of a call's; no call differs when left out. */
    readonly spread: number;
    readonly ofCalls?: number;
  };
}

/** Eight calls, eight answers, sixteen players; a play's spread is that of expected points. */
export const USUAL_LEAGUE: Omit<AnswerLeagueSettings, 'seed' | 'playsACell' | 'spread'> = {
  calls: 8,
  answers: 8,
  players: 16,
  games: 40,
  general: 0.75,
  deviations: { call: 0.15, offense: 0.15, defense: 0.15, gameSide: 0.1, play: 1.3 },
  taste: 1.5,
};

export interface AnswerLeague {
  readonly coded: CodedPlays;
  readonly outcome: Float64Array;
  /** What a call truly gives against an answer, players of the mean; from the side with the ball. */
  readonly truth: (call: number, answer: number, group?: number) => number;
  /** True shares of a player's calls. */
  readonly callShares: (player: number) => readonly number[];
}

export function answerLeague(settings: AnswerLeagueSettings): AnswerLeague {
  const { seed, calls, answers, players, games, playsACell, spread, general, deviations, taste } = settings;
  const random = seededRandom(seed);
  const normals = (count: number, deviation: number): number[] =>
    Array.from({ length: count }, () => deviation * drawNormal(random));
  const ofCall = normals(calls, deviations.call);
  const ofAnswer = normals(answers, spread * Math.sqrt(general));
  const ofPair = normals(calls * answers, spread * Math.sqrt(1 - general));
  const offense = normals(players, deviations.offense);
  const defense = normals(players, deviations.defense);
  const day = normals(2 * games, deviations.gameSide);
  const tastes = (count: number): number[][] =>
    Array.from({ length: players }, () => drawDirichlet(random, new Array<number>(count).fill(taste)));
  const [callTastes, answerTastes] = [tastes(calls), tastes(answers)];
  const { shares = [1], spread: between = 0, ofCalls: betweenCalls = 0 } = settings.bySituation ?? {};
  // Nothing is drawn where there is one group, so that its leagues stay what they were.
  const ofGroup = shares.length === 1 ? [] : centred(normals(answers * shares.length, between), shares);
  const ofCallGroup = betweenCalls === 0 ? [] : centred(normals(calls * shares.length, betweenCalls), shares);
  const truth = (call: number, answer: number, group = -1): number =>
    (ofCall[call] ?? 0) +
    (ofAnswer[answer] ?? 0) +
    (ofPair[call * answers + answer] ?? 0) +
    (ofGroup[answer * shares.length + group] ?? 0) +
    (ofCallGroup[call * shares.length + group] ?? 0);

  const count = calls * answers * playsACell;
  const coded = {
    call: new Int16Array(count),
    calls,
    answer: new Int16Array(count),
    answers,
    offense: new Int32Array(count),
    defense: new Int32Array(count),
    players,
    gameSide: new Int32Array(count),
    gameSides: 2 * games,
    situation: new Int8Array(count),
    situations: shares.length,
  };
  const outcome = new Float64Array(count);
  for (let play = 0; play < count; play += 1) {
    const side = Math.floor((play * 2 * games) / count);
    const game = Math.floor(side / 2);
    const [home, away] = [game % players, (game * 7 + 3 + Math.floor(game / players)) % players];
    const other = home === away ? (away + 1) % players : away;
    const [with_, against] = side % 2 === 0 ? [home, other] : [other, home];
    const call = drawFrom(random, callTastes[with_] ?? []);
    const answer = drawFrom(random, answerTastes[against] ?? []);
    coded.call[play] = call;
    coded.answer[play] = answer;
    coded.offense[play] = with_;
    coded.defense[play] = against;
    coded.gameSide[play] = side;
    const group = shares.length === 1 ? 0 : drawFrom(random, shares);
    coded.situation[play] = group;
    outcome[play] =
      truth(call, answer, group) +
      (offense[with_] ?? 0) +
      (defense[against] ?? 0) +
      (day[side] ?? 0) +
      deviations.play * drawNormal(random);
  }
  return { coded, outcome, truth, callShares: (player) => callTastes[player] ?? [] };
}

/** Less each call's or answer's mean over the plays, so that its worth everywhere stays what it was. */
function centred(effects: readonly number[], shares: readonly number[]): number[] {
  const groups = shares.length;
  const mean = (level: number): number =>
    shares.reduce((sum, share, group) => sum + share * (effects[level * groups + group] ?? 0), 0);
  return effects.map((effect, at) => effect - mean(Math.floor(at / groups)));
}

function drawFrom(random: RandomSource, shares: readonly number[]): number {
  let rest = random();
  for (let place = 0; place < shares.length; place += 1) {
    rest -= shares[place] ?? 0;
    if (rest < 0) return place;
  }
  return shares.length - 1;
}
