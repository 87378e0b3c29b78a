import { elementAt } from '../statistics/element-at.js';
import type { Interval } from '../statistics/interval.js';
import { Evidence } from '../tendencies/evidence.js';
import { resultsOfPlays } from '../tendencies/decisions/results-of-plays.js';
import type { Results } from '../tendencies/results-shape.js';
import type { AnswerModel } from './answer-model.js';
import type { CodedPlays } from './coded-plays.js';
import type { FittedOutcome } from './fitted-outcome.js';
import { intervalAround } from './interval-around.js';
import {
  MECHANISM_LEVEL,
  mechanismFlags,
  mechanisms,
  type Clustering,
  type Mechanism,
  type MechanismFlags,
} from './mechanisms.js';
import { menuOptions, type CallOption, type MenuCall } from './options.js';
import { cellsOf } from './payoffs.js';

/** A mean with its posterior interval. */
export interface Estimate {
  readonly mean: number;
  readonly interval: Interval;
}

/** One defensive call against one offensive call, or the other way round for what beats a defense. */
export interface Answer {
  readonly option: CallOption;
  /** Installed in the menu asked with, or to install. */
  readonly installed: boolean;
  /** Plays on which the call met it, by how many games and players of the answering side. */
  readonly plays: number;
  readonly games: number;
  readonly players: readonly { readonly player: number; readonly plays: number }[];
  /**
   * Expected points added a play beside the mean of the situation, from the side with the ball, players of the field's
   * mean; by partial pooling.
   */
  readonly points: Estimate;
  /** The same less what the call gets whatever it meets: below 0 for an answer that holds it. */
  readonly againstUsual: Estimate;
  /** Success beside the situation's mean, in shares; null where success is known on too few plays. */
  readonly success: Estimate | null;
  /** As they came, nothing taken out. */
  readonly results: Results;
  /** What moved with it. */
  readonly mechanisms: readonly Mechanism[];
  /**
   * The call with which the other side does best against it, of those given: what it costs if they adjust. Null where no
   * calls were given.
   */
  readonly price: { readonly option: CallOption; readonly points: Estimate } | null;
  readonly evidence: Evidence;
}

export interface AnswersQuestion {
  /** Ascending places of the plays of the call in the field's batch. */
  readonly places: Int32Array;
  /** Which side answers: the defense answers an offensive call. */
  readonly answering: 'defense' | 'offense';
  /** The call itself, as the model knows it. */
  readonly call: CallOption;
  readonly menu: readonly MenuCall[];
  /** Calls that the other side has besides, for the price. */
  readonly otherCalls: readonly CallOption[];
  /** In (0, 1), of every interval. */
  readonly confidence: number;
}

/** What is not installed is only worth naming where it was met this often. Common practice, no source. */
const FEWEST_TO_INSTALL = 3;
const MOST_TO_INSTALL = 8;

/**
 * What has answered a call: first what the clan has installed, tried or not, then what others did that it has not; either
 * way the best for the answering side first. Nothing here depends on what a chart says of the rest of the play.
 *
 * @returns empty where the archive was too small to fit
 * @throws DomainError `stats.invalid_probability`
 * @see fitOutcome, mechanisms
 */
export function answersTo(model: AnswerModel, question: AnswersQuestion): Answer[] {
  const { points } = model;
  const { answering, menu, places, call } = question;
  if (points === null || call.levels.length === 0) return [];
  const installed = menuOptions(model, menu, answering);
  const owned = new Set(
    installed.flatMap(({ levels, byItsLike }) => (byItsLike ? [] : levels.map(({ level }) => level))),
  );
  const toInstall = seenOptions(model, answering, places).filter(
    ({ levels }) => !levels.some(({ level }) => owned.has(level)),
  );
  const options = [...installed, ...toInstall];
  const byLevel = placesByLevel(model, answering, places);
  const met = options.map((option) => metBy(byLevel, option));
  // Of all of them, those that are not named too: what stands depends on how much was asked.
  const { clusterings, flags } = watchedOf(model);
  const reasons = mechanisms(clusterings, flags, seenPlaces(model, answering, places), met, {
    confidence: question.confidence,
    level: MECHANISM_LEVEL,
  });
  const means = options.map((option) => points.combination(cellsOf(...pairOf(answering, call, option))).mean);
  const better = (one: number, other: number): number =>
    (answering === 'defense' ? 1 : -1) * ((means[one] ?? 0) - (means[other] ?? 0));
  const order = [...options.keys()];
  const named = [
    ...order.filter((at) => at < installed.length).sort(better),
    ...order
      .filter((at) => at >= installed.length)
      .sort(better)
      .slice(0, MOST_TO_INSTALL),
  ];
  return named.map((at) => answerOf(model, question, elementAt(options, at), elementAt(met, at), reasons[at] ?? []));
}

/** The offense's call first. */
function pairOf(
  answering: 'defense' | 'offense',
  their: CallOption,
  own: CallOption,
): readonly [call: CallOption, answer: CallOption] {
  return answering === 'defense' ? [their, own] : [own, their];
}

/** Levels of the answering side that the call met often enough. */
function seenOptions(model: AnswerModel, answering: 'defense' | 'offense', places: Int32Array): CallOption[] {
  const of = answering === 'defense' ? model.answers : model.calls;
  const counts = new Map<number, number>();
  for (const play of places) {
    const level = of.codes[play] ?? -1;
    if (level >= 0) counts.set(level, (counts.get(level) ?? 0) + 1);
  }
  return [...counts].flatMap(([place, count]): CallOption[] => {
    const level = of.levels[place];
    const tellsNothing = level === undefined || ('detail' in level && level.detail !== 'as seen');
    if (count < FEWEST_TO_INSTALL || tellsNothing) return [];
    return [
      {
        key: level.key,
        label: level.label,
        menu: null,
        levels: [{ level: place, weight: 1 }],
        byItsLike: false,
      },
    ];
  });
}

/** The plays of each level of the answering side, ascending. */
function placesByLevel(
  model: AnswerModel,
  answering: 'defense' | 'offense',
  places: Int32Array,
): ReadonlyMap<number, readonly number[]> {
  const { codes } = answering === 'defense' ? model.answers : model.calls;
  const byLevel = new Map<number, number[]>();
  for (const play of places) {
    const level = codes[play] ?? -1;
    const own = byLevel.get(level);
    if (own === undefined) byLevel.set(level, [play]);
    else own.push(play);
  }
  return byLevel;
}

/** Plays that met the option; none for one that is only told by its like. */
function metBy(byLevel: ReadonlyMap<number, readonly number[]>, { byItsLike, levels }: CallOption): Int32Array {
  const [first, ...others] = byItsLike ? [] : levels.map(({ level }) => byLevel.get(level) ?? []);
  if (first === undefined) return new Int32Array(0);
  return others.length === 0 ? new Int32Array(first) : Int32Array.from([first, ...others].flat()).sort();
}

function seenPlaces(model: AnswerModel, answering: 'defense' | 'offense', places: Int32Array): Int32Array {
  if (answering === 'offense') return places;
  const seen = model.answers.levels.map(({ detail }) => detail !== 'not seen');
  return places.filter((play) => seen[model.answers.codes[play] ?? -1] === true);
}

interface Watched {
  readonly flags: MechanismFlags;
  readonly clusterings: readonly [Clustering, ...Clustering[]];
}

const WATCHED = new WeakMap<AnswerModel, Watched>();

/** What mechanisms are told from, read off an archive once. */
function watchedOf(model: AnswerModel): Watched {
  const kept = WATCHED.get(model);
  if (kept !== undefined) return kept;
  const { gameSide, gameSides, offense, defense } = model.coded;
  const made: Watched = {
    flags: mechanismFlags(model.facts),
    clusterings: [
      { of: gameSide, clusters: gameSides },
      byPlayer(model.coded, offense),
      byPlayer(model.coded, defense),
    ],
  };
  WATCHED.set(model, made);
  return made;
}

/** Where nobody knows who it was, every side of a game is somebody's own. */
function byPlayer({ players, gameSide, gameSides }: CodedPlays, whose: Int32Array): Clustering {
  const of = new Int32Array(whose);
  for (let play = 0; play < of.length; play += 1) {
    if ((of[play] ?? -1) < 0) of[play] = players + (gameSide[play] ?? 0);
  }
  return { of, clusters: players + gameSides };
}

function answerOf(
  model: AnswerModel,
  question: AnswersQuestion,
  option: CallOption,
  met: Int32Array,
  reasons: readonly Mechanism[],
): Answer {
  const { answering, call, confidence } = question;
  const { facts, points, success } = model;
  const pair = pairOf(answering, call, option);
  return {
    option,
    installed: option.menu !== null,
    plays: met.length,
    ...whoMet(model, answering, met),
    points: points === null ? NOTHING_KNOWN : estimate(points, pair, confidence),
    againstUsual: againstUsual(model, answering, call, option, confidence),
    success: success === null ? null : estimate(success, pair, confidence),
    results: resultsOfPlays(facts, met, null, confidence),
    mechanisms: reasons,
    price: priceOf(model, question, option),
    evidence: new Evidence(facts.plays, met, () => true),
  };
}

function estimate(of: FittedOutcome, pair: readonly [CallOption, CallOption], confidence: number): Estimate {
  const { mean, variance } = of.combination(cellsOf(...pair));
  return { mean, interval: intervalAround(mean, Math.sqrt(variance()), confidence) };
}

/** Of the other calls of the side that is answered the one that does best against an option. */
export function priceOf(
  { points }: AnswerModel,
  { answering, otherCalls, confidence }: Pick<AnswersQuestion, 'answering' | 'otherCalls' | 'confidence'>,
  option: CallOption,
): Answer['price'] {
  if (points === null) return null;
  let worst: { readonly other: CallOption; readonly mean: number } | null = null;
  for (const other of otherCalls) {
    const { mean } = points.combination(cellsOf(...pairOf(answering, other, option)));
    if (worst === null || (answering === 'defense' ? mean > worst.mean : mean < worst.mean)) worst = { other, mean };
  }
  if (worst === null) return null;
  return { option: worst.other, points: estimate(points, pairOf(answering, worst.other, option), confidence) };
}

/** In how many games a call was met, and by whom of the answering side. */
function whoMet(
  { facts, coded }: AnswerModel,
  answering: 'defense' | 'offense',
  met: Int32Array,
): Pick<Answer, 'games' | 'players'> {
  const whose = answering === 'defense' ? coded.defense : coded.offense;
  const { chartIndex, charts } = facts.plays;
  const [byPlayer, seen] = [new Int32Array(coded.players), new Uint8Array(charts.length)];
  let games = 0;
  for (const play of met) {
    const [player, chart] = [whose[play] ?? -1, chartIndex[play] ?? 0];
    if (player >= 0) byPlayer[player] = (byPlayer[player] ?? 0) + 1;
    if (seen[chart] === 0) games += 1;
    seen[chart] = 1;
  }
  const players = [...byPlayer.keys()]
    .map((player) => ({ player, plays: byPlayer[player] ?? 0 }))
    .filter(({ plays }) => plays > 0)
    .sort((one, other) => other.plays - one.plays || one.player - other.player);
  return { games, players };
}

const NOTHING_KNOWN: Estimate = { mean: 0, interval: { lower: 0, upper: 0 } };

/** The answer less the mean over all answers that the archive went with: one combination, so that what both share cancels. */
function againstUsual(
  model: AnswerModel,
  answering: 'defense' | 'offense',
  call: CallOption,
  option: CallOption,
  confidence: number,
): Estimate {
  const { points } = model;
  if (points === null) return NOTHING_KNOWN;
  const usual: CallOption = {
    key: 'usual',
    label: 'as usual',
    menu: null,
    byItsLike: false,
    levels: usualLevels(model, answering),
  };
  const { mean, variance } = points.combination([
    ...cellsOf(...pairOf(answering, call, option)),
    ...cellsOf(...pairOf(answering, call, usual)).map((cell) => ({ ...cell, weight: -cell.weight })),
  ]);
  return { mean, interval: intervalAround(mean, Math.sqrt(variance()), confidence) };
}

const USUAL = new WeakMap<object, CallOption['levels']>();

/** Levels of the answering side by how often the archive saw them. */
function usualLevels(model: AnswerModel, answering: 'defense' | 'offense'): CallOption['levels'] {
  const of = answering === 'defense' ? model.answers : model.calls;
  const kept = USUAL.get(of);
  if (kept !== undefined) return kept;
  const counts = new Float64Array(of.levels.length);
  for (let play = 0; play < model.takesPart.length; play += 1) {
    const level = of.codes[play] ?? -1;
    if (level >= 0 && model.takesPart[play] === 1) counts[level] = (counts[level] ?? 0) + 1;
  }
  if (answering === 'defense') counts[0] = 0;
  const total = counts.reduce((sum, count) => sum + count, 0);
  const levels = [...counts.keys()]
    .filter((level) => (counts[level] ?? 0) > 0)
    .map((level) => ({ level, weight: (counts[level] ?? 0) / total }));
  USUAL.set(of, levels);
  return levels;
}
