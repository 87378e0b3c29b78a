import type { Classification } from '../football/situations.js';
import { ALL_SNAPS, type SituationKey } from '../tendencies/situation-keys.js';
import type { AnswerModel } from './answer-model.js';
import { DISTANCE_GROUPS } from './situation-effects.js';

/** How often each player called each level in each situation, on one side of the ball; what was not seen is left out. */
export class SituationCounts {
  readonly #counts: Int32Array;
  readonly #levels: number;
  readonly #players: number;
  readonly #names: readonly string[];
  readonly #groups: Int32Array;
  readonly #together = new Map<number, Int32Array>();

  /** @param by - what the plays are cut by; the situations of the model when left out */
  constructor(
    model: AnswerModel,
    readonly side: 'offense' | 'defense',
    by: Classification = { codes: model.facts.situation, names: model.facts.situationNames },
  ) {
    const { coded, answers, calls, takesPart } = model;
    const of = side === 'offense' ? calls : answers;
    const whose = side === 'offense' ? coded.offense : coded.defense;
    const unseen = side === 'defense' ? answers.levels.findIndex(({ detail }) => detail === 'not seen') : -1;
    this.#levels = of.levels.length;
    this.#players = coded.players;
    this.#names = by.names;
    const all = this.#names.length;
    this.#counts = new Int32Array((all + 1) * this.#players * this.#levels);
    this.#groups = new Int32Array((all + 1) * DISTANCE_GROUPS);
    for (let play = 0; play < takesPart.length; play += 1) {
      if (takesPart[play] === 1) this.#addGroup(model.group[play] ?? -1, by.codes[play] ?? -1);
      const [level, player, situation] = [of.codes[play] ?? -1, whose[play] ?? -1, by.codes[play] ?? -1];
      if (takesPart[play] !== 1 || level < 0 || level === unseen || player < 0) continue;
      this.#add(all, player, level);
      if (situation >= 0) this.#add(situation, player, level);
    }
  }

  /** Of one player, one a level. */
  of(situation: SituationKey, player: number): Int32Array {
    const place = this.#place(situation);
    if (place < 0 || player < 0) return new Int32Array(this.#levels);
    const from = (place * this.#players + player) * this.#levels;
    return this.#counts.subarray(from, from + this.#levels);
  }

  /** Of every player, one after another as `of` has each. */
  ofEach(situation: SituationKey): Int32Array {
    const size = this.#players * this.#levels;
    const place = this.#place(situation);
    return place < 0 ? new Int32Array(size) : this.#counts.subarray(place * size, (place + 1) * size);
  }

  /** Of all players together, one a level. */
  ofEverybody(situation: SituationKey): Int32Array {
    const place = this.#place(situation);
    const kept = this.#together.get(place);
    if (kept !== undefined) return kept;
    const sum = new Int32Array(this.#levels);
    const each = this.ofEach(situation);
    for (let from = 0; from < each.length; from += sum.length) {
      for (let level = 0; level < sum.length; level += 1) sum[level] = (sum[level] ?? 0) + (each[from + level] ?? 0);
    }
    this.#together.set(place, sum);
    return sum;
  }

  /** Shares of the field's plays in a situation that are of each group by yards to go; all 0 where none is known. */
  groupShares(situation: SituationKey): number[] {
    const from = this.#place(situation) * DISTANCE_GROUPS;
    const counts = Array.from({ length: DISTANCE_GROUPS }, (_, group) => this.#groups[from + group] ?? 0);
    const total = counts.reduce((sum, count) => sum + count, 0);
    return counts.map((count) => (total === 0 ? 0 : count / total));
  }

  /** Players who have a number, those without a play among them. */
  get players(): number {
    return this.#players;
  }

  /** Situations in which a player was seen, most plays first. */
  situationsOf(player: number): { readonly situation: SituationKey; readonly plays: number }[] {
    return this.#names
      .map((situation) => ({ situation, plays: this.of(situation, player).reduce((sum, count) => sum + count, 0) }))
      .filter(({ plays }) => plays > 0)
      .sort((one, other) => other.plays - one.plays);
  }

  #place(situation: SituationKey): number {
    return situation === ALL_SNAPS ? this.#names.length : this.#names.indexOf(situation);
  }

  #addGroup(group: number, situation: number): void {
    if (group < 0) return;
    for (const place of situation < 0 ? [this.#names.length] : [this.#names.length, situation]) {
      const at = place * DISTANCE_GROUPS + group;
      this.#groups[at] = (this.#groups[at] ?? 0) + 1;
    }
  }

  #add(place: number, player: number, level: number): void {
    const at = (place * this.#players + player) * this.#levels + level;
    this.#counts[at] = (this.#counts[at] ?? 0) + 1;
  }
}
