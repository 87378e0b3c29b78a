import { calledRunOrPass } from '../charting/vocabulary.js';
import { fitConcentration } from '../statistics/fit-concentration.js';
import type { SituationKey } from '../tendencies/situation-keys.js';
import type { AnswerModel } from './answer-model.js';
import type { CallOption } from './options.js';
import type { SituationCounts } from './situation-counts.js';

/** What an opponent calls in a situation, and how sure that is. */
export interface TheirCalls {
  readonly options: readonly CallOption[];
  /** Plays of the opponent's in the situation, one an option. */
  readonly counts: readonly number[];
  /** Parameters of the Dirichlet posterior of their shares: the counts, and the field's shares by a fitted weight. */
  readonly alpha: readonly number[];
  readonly plays: number;
}

/** Called by name from so many plays on, and at most so many; the others are taken together. Choices, no source. */
const FEWEST_BY_NAME = 2;
const MOST_BY_NAME = 7;
/** What the opponent never did is only faced where the field does it this often. */
const SHARE_TO_FACE = 0.05;
/** Of a share of the field, so that a Dirichlet prior can be about it. */
const SMALLEST_SHARE = 1e-3;

/**
 * An opponent's calls in a situation: the frequent ones by name, the others together by kind. Shares are drawn to the
 * field's with a weight fitted by how much its players differ.
 *
 * @param player - the opponent's number
 * @see fitConcentration
 */
export function theirCalls(
  model: AnswerModel,
  counts: SituationCounts,
  situation: SituationKey,
  player: number,
): TheirCalls {
  const own = counts.of(situation, player);
  const byName = [...own.keys()]
    .filter((level) => (own[level] ?? 0) >= FEWEST_BY_NAME)
    .sort((one, other) => (own[other] ?? 0) - (own[one] ?? 0) || one - other)
    .slice(0, MOST_BY_NAME);
  const named = new Set(byName);
  const fieldCounts = counts.ofEverybody(situation).map((count, level) => count - (own[level] ?? 0));
  const kinds = new Map<string, number[]>();
  for (let level = 0; level < own.length; level += 1) {
    if (named.has(level) || ((own[level] ?? 0) === 0 && (fieldCounts[level] ?? 0) === 0)) continue;
    const kind = kindOf(model, counts.side, level);
    kinds.set(kind, [...(kinds.get(kind) ?? []), level]);
  }
  const groups = [
    ...byName.map((level) => ({ ...labelled(model, counts.side, level), levels: [level] })),
    ...[...kinds].map(([kind, levels]) => ({ key: `other:${kind}`, label: kind, levels })),
  ];
  const sumOf = (values: Int32Array, levels: readonly number[]): number =>
    levels.reduce((sum, level) => sum + (values[level] ?? 0), 0);
  const fieldTotal = fieldCounts.reduce((sum, count) => sum + count, 0);
  const kept = groups.filter(
    ({ levels }) => sumOf(own, levels) > 0 || sumOf(fieldCounts, levels) >= SHARE_TO_FACE * fieldTotal,
  );
  const shares = sharesOf(kept.map(({ levels }) => sumOf(fieldCounts, levels)));
  const weight = kept.length < 2 ? 1 : weightOf(counts, situation, player, kept, shares);
  return {
    options: kept.map(({ key, label, levels }): CallOption => {
      const seen = sumOf(own, levels) > 0 ? own : fieldCounts;
      const total = sumOf(seen, levels);
      return {
        key,
        label,
        menu: null,
        byItsLike: false,
        levels: levels
          .filter((level) => (seen[level] ?? 0) > 0)
          .map((level) => ({ level, weight: (seen[level] ?? 0) / total })),
      };
    }),
    counts: kept.map(({ levels }) => sumOf(own, levels)),
    alpha: kept.map(({ levels }, place) => sumOf(own, levels) + weight * (shares[place] ?? 0)),
    plays: own.reduce((sum, count) => sum + count, 0),
  };
}

function labelled(model: AnswerModel, side: 'offense' | 'defense', level: number): { key: string; label: string } {
  const found = side === 'offense' ? model.calls.levels[level] : model.answers.levels[level];
  return { key: found?.key ?? '', label: found?.label ?? '' };
}

function kindOf({ calls, answers, vocabulary }: AnswerModel, side: 'offense' | 'defense', level: number): string {
  if (side === 'offense') {
    const call = calls.levels[level];
    const called = calledRunOrPass(vocabulary, call?.familyId ?? null, call?.conceptId ?? null);
    return called === null ? 'other calls' : called === 'run' ? 'other runs' : 'other passes';
  }
  const rolled = answers.levels[answers.rolledUp[level] ?? level];
  return rolled?.detail === 'rolled up' ? `other ${rolled.label.replace(' (another kind)', '')}` : 'other calls';
}

function sharesOf(counts: readonly number[]): number[] {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const raw = counts.map((count) => Math.max(SMALLEST_SHARE, total === 0 ? 1 / counts.length : count / total));
  const sum = raw.reduce((all, share) => all + share, 0);
  return raw.map((share) => share / sum);
}

function weightOf(
  counts: SituationCounts,
  situation: SituationKey,
  player: number,
  groups: readonly { readonly levels: readonly number[] }[],
  shares: readonly number[],
): number {
  const all = groups.map(({ levels }) => levels);
  const table: number[][] = [];
  const each = counts.ofEach(situation);
  const size = each.length / counts.players;
  for (let other = 0; other < counts.players; other += 1) {
    if (other === player) continue;
    const from = other * size;
    const row: number[] = [];
    let seen = 0;
    for (const levels of all) {
      let count = 0;
      for (const level of levels) count += each[from + level] ?? 0;
      row.push(count);
      seen += count;
    }
    if (seen > 0) table.push(row);
  }
  return table.length === 0 ? 1 : fitConcentration(table, shares).concentration;
}
