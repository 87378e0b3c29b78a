import type { Interval } from '../statistics/interval.js';
import { Evidence } from '../tendencies/evidence.js';
import { resultsOfPlays } from '../tendencies/decisions/results-of-plays.js';
import type { Results } from '../tendencies/results-shape.js';
import type { AnswerModel } from './answer-model.js';
import { intervalAround } from './interval-around.js';
import { MECHANISM_LEVEL, mechanismFlags, mechanisms, type Mechanism, type MechanismFlags } from './mechanisms.js';
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
  const reasons = mechanisms(model.facts, flagsOf(model), seenPlaces(model, answering, places), met, {
    confidence: question.confidence,
    level: MECHANISM_LEVEL,
  });
  const answers = options.map((option, at) =>
    answerOf(model, question, option, met[at] ?? new Int32Array(0), reasons[at] ?? []),
  );
  const better = (one: Answer, other: Answer): number =>
    (answering === 'defense' ? 1 : -1) * (one.points.mean - other.points.mean);
  return [
    ...answers.filter(({ installed: is }) => is).sort(better),
    ...answers
      .filter(({ installed: is }) => !is)
      .sort(better)
      .slice(0, MOST_TO_INSTALL),
  ];
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
  const met = byItsLike ? [] : levels.flatMap(({ level }) => byLevel.get(level) ?? []);
  return Int32Array.from(met).sort();
}

function seenPlaces(model: AnswerModel, answering: 'defense' | 'offense', places: Int32Array): Int32Array {
  if (answering === 'offense') return places;
  const seen = model.answers.levels.map(({ detail }) => detail !== 'not seen');
  return places.filter((play) => seen[model.answers.codes[play] ?? -1] === true);
}

const FLAGS = new WeakMap<AnswerModel, MechanismFlags>();

function flagsOf(model: AnswerModel): MechanismFlags {
  const kept = FLAGS.get(model) ?? mechanismFlags(model.facts);
  FLAGS.set(model, kept);
  return kept;
}

function answerOf(
  model: AnswerModel,
  { answering, call, otherCalls, confidence }: AnswersQuestion,
  option: CallOption,
  met: Int32Array,
  reasons: readonly Mechanism[],
): Answer {
  const { facts, coded, points, success } = model;
  const whose = answering === 'defense' ? coded.defense : coded.offense;
  const byPlayer = new Map<number, number>();
  for (const play of met) byPlayer.set(whose[play] ?? -1, (byPlayer.get(whose[play] ?? -1) ?? 0) + 1);
  const pair = (their: CallOption): readonly [CallOption, CallOption] =>
    answering === 'defense' ? [their, option] : [option, their];
  const estimate = (of: typeof points, their: CallOption): Estimate | null => {
    if (of === null) return null;
    const { mean, variance } = of.combination(cellsOf(...pair(their)));
    return { mean, interval: intervalAround(mean, Math.sqrt(variance), confidence) };
  };
  const prices = otherCalls.flatMap((other) => {
    const found = estimate(points, other);
    return found === null ? [] : [{ option: other, points: found }];
  });
  const worst = prices.reduce<Answer['price']>((most, one) => {
    const worse =
      answering === 'defense'
        ? one.points.mean > (most?.points.mean ?? -Infinity)
        : one.points.mean < (most?.points.mean ?? Infinity);
    return worse ? one : most;
  }, null);
  return {
    option,
    installed: option.menu !== null,
    plays: met.length,
    games: new Set(Array.from(met, (play) => facts.plays.chartIndex[play])).size,
    players: [...byPlayer]
      .filter(([player]) => player >= 0)
      .map(([player, plays]) => ({ player, plays }))
      .sort((one, other) => other.plays - one.plays || one.player - other.player),
    points: estimate(points, call) ?? NOTHING_KNOWN,
    againstUsual: againstUsual(model, answering, call, option, confidence),
    success: estimate(success, call),
    results: resultsOfPlays(facts, met, null, confidence),
    mechanisms: reasons,
    price: worst,
    evidence: new Evidence(facts.plays, met, () => true),
  };
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
  const pair = (own: CallOption): readonly [CallOption, CallOption] =>
    answering === 'defense' ? [call, own] : [own, call];
  const { mean, variance } = points.combination([
    ...cellsOf(...pair(option)),
    ...cellsOf(...pair(usual)).map((cell) => ({ ...cell, weight: -cell.weight })),
  ]);
  return { mean, interval: intervalAround(mean, Math.sqrt(variance), confidence) };
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
