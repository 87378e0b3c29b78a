import type { Vocabulary } from '../charting/vocabulary.js';
import type { AnswerModel } from './answer-model.js';
import type { AnswerLevel, CallLevel, Levels } from './levels.js';

/** A call of the clan's installed menu, its terms canonical; a part that is null is left open. */
export interface MenuCall {
  readonly id: string;
  readonly side: 'offense' | 'defense';
  readonly name: string;
  readonly rehearsed: boolean;
  /** Whether it can be got into at the line. */
  readonly byCheck: boolean;
  readonly conceptId: number | null;
  readonly formationId: number | null;
  readonly frontId: number | null;
  readonly coverageId: number | null;
  readonly pressureId: number | null;
}

/** One thing that a side can call, as levels of the model. */
export interface CallOption {
  readonly key: string;
  readonly label: string;
  /** The call of the menu that it is; null for one to install, or of the other side. */
  readonly menu: MenuCall | null;
  /** Levels that it stands for, with the part of each, adding up to 1. */
  readonly levels: readonly { readonly level: number; readonly weight: number }[];
  /** Set where the archive never saw it, and what is said rests on its like. */
  readonly byItsLike: boolean;
}

type Sides = Partial<Record<MenuCall['side'], readonly CallOption[]>>;

/** By model and by menu: one menu is asked with in every situation. */
const OF_MENU = new WeakMap<AnswerModel, WeakMap<readonly MenuCall[], Sides>>();

/** The installed calls of a side that the model can say something of; the others by their like. */
export function menuOptions(
  model: AnswerModel,
  menu: readonly MenuCall[],
  side: MenuCall['side'],
): readonly CallOption[] {
  const ofModel = OF_MENU.get(model) ?? new WeakMap<readonly MenuCall[], Sides>();
  OF_MENU.set(model, ofModel);
  const known = ofModel.get(menu) ?? {};
  ofModel.set(menu, known);
  return (known[side] ??= optionsOf(model, menu, side));
}

function optionsOf(model: AnswerModel, menu: readonly MenuCall[], side: MenuCall['side']): CallOption[] {
  return menu
    .filter((call) => call.side === side)
    .flatMap((call): CallOption[] => {
      const found = side === 'defense' ? answersOf(model, call) : callsOf(model, call);
      if (found === null) return [];
      return [{ key: `menu:${call.id}`, label: call.name, menu: call, ...found }];
    });
}

/** Levels of answers that fit what a call of the menu says of front, coverage and pressure. */
export function answersOf(model: AnswerModel, call: MenuCall): Pick<CallOption, 'levels' | 'byItsLike'> | null {
  const { vocabulary, answers } = model;
  if (call.frontId === null && call.coverageId === null && call.pressureId === null) return null;
  const parts = ['frontId', 'coverageId', 'pressureId'] as const;
  const missing = (level: AnswerLevel): number =>
    level.detail !== 'as seen'
      ? parts.length
      : parts.filter((part) => !within(vocabulary, level[part], call[part])).length;
  const exact = levelsWhere(answers.levels, (level) => missing(level) === 0);
  if (exact.length > 0) return { levels: weighted(exact, playsByLevel(model, model.answers)), byItsLike: false };
  // Its like: what shares the most parts with it, the coverage first since it decides more than a front.
  const shared = (level: AnswerLevel): number =>
    level.detail === 'as seen'
      ? parts.reduce(
          (sum, part) =>
            sum +
            (call[part] !== null && within(vocabulary, level[part], call[part])
              ? part === 'coverageId'
                ? LEAST_LIKE
                : 1
              : 0),
          0,
        )
      : 0;
  const most = Math.max(0, ...answers.levels.map(shared));
  if (most < LEAST_LIKE) return null;
  const like = levelsWhere(answers.levels, (level) => shared(level) === most);
  return { levels: weighted(like, playsByLevel(model, model.answers)), byItsLike: true };
}

/** The coverage, or front and pressure together: a goal-line front is not like what only brings as many. */
const LEAST_LIKE = 1.5;

/** Levels of calls that fit what a call of the menu says of its concept. */
export function callsOf(model: AnswerModel, call: MenuCall): Pick<CallOption, 'levels' | 'byItsLike'> | null {
  const { vocabulary, calls } = model;
  if (call.conceptId === null) return null;
  const exact = levelsWhere(calls.levels, (level) => within(vocabulary, level.conceptId, call.conceptId));
  if (exact.length > 0) return { levels: weighted(exact, playsByLevel(model, model.calls)), byItsLike: false };
  const family = vocabulary.parentId(call.conceptId);
  const like = levelsWhere(calls.levels, ({ familyId }: CallLevel) => family !== null && familyId === family);
  return like.length === 0 ? null : { levels: weighted(like, playsByLevel(model, model.calls)), byItsLike: true };
}

function within(vocabulary: Vocabulary, seen: number | null, wanted: number | null): boolean {
  return wanted === null || (seen !== null && vocabulary.isWithin(seen, wanted));
}

function levelsWhere<Level>(levels: readonly Level[], fits: (level: Level) => boolean): number[] {
  return [...levels.keys()].filter((place) => {
    const level = levels[place];
    return level !== undefined && fits(level);
  });
}

function weighted(levels: readonly number[], plays: Int32Array): CallOption['levels'] {
  const total = levels.reduce((sum, level) => sum + (plays[level] ?? 0), 0);
  return levels.map((level) => ({
    level,
    weight: total === 0 ? 1 / levels.length : (plays[level] ?? 0) / total,
  }));
}

const PLAYS = new WeakMap<Levels<unknown>, Int32Array>();

/** Plays of each level over the archive, counted once. @param of - the model's calls or answers */
export function playsByLevel({ takesPart }: AnswerModel, of: Levels<unknown>): Int32Array {
  const kept = PLAYS.get(of);
  if (kept !== undefined) return kept;
  const counts = new Int32Array(of.levels.length);
  for (let play = 0; play < takesPart.length; play += 1) {
    const level = of.codes[play] ?? -1;
    if (level >= 0 && takesPart[play] === 1) counts[level] = (counts[level] ?? 0) + 1;
  }
  PLAYS.set(of, counts);
  return counts;
}
