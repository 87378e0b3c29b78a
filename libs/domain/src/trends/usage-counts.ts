import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import type { TrendCodes } from './trend-dimensions.js';

/** Whose habit each play shows, and in which event it was played. */
export interface WhoAndWhen {
  /** One a play; -1 for nobody's. */
  readonly playerOf: Int32Array;
  readonly players: number;
  /** One a chart: place of its event in time, from 0; -1 for games outside the events asked about. */
  readonly eventOf: Int16Array;
  readonly events: number;
}

/** Counts of one dimension by event and player. */
export class UsageCounts {
  /** Places of the plays of each value, ascending in the batch. */
  readonly #uses: number[][];
  readonly #known: Int32Array;
  readonly #counts: Int32Array;
  readonly #players: number;
  readonly #values: number;
  readonly events: number;

  constructor(facts: TendencyPlays, { codes, values }: TrendCodes, { playerOf, players, eventOf, events }: WhoAndWhen) {
    this.#players = players;
    this.#values = values.length;
    this.events = events;
    this.#uses = values.map(() => []);
    this.#known = new Int32Array(events * players);
    this.#counts = new Int32Array(events * players * values.length);
    for (let play = 0; play < codes.length; play += 1) {
      const [code, player] = [codes[play] ?? -1, playerOf[play] ?? -1];
      const event = eventOf[facts.plays.chartIndex[play] ?? -1] ?? -1;
      if (facts.counts[play] !== 1 || code < 0 || player < 0 || event < 0) continue;
      const cell = event * players + player;
      this.#known[cell] = (this.#known[cell] ?? 0) + 1;
      const at = cell * values.length + code;
      this.#counts[at] = (this.#counts[at] ?? 0) + 1;
      this.#uses[code]?.push(play);
    }
  }

  /** Places of a value's plays in the batch. */
  uses(value: number): readonly number[] {
    return this.#uses[value] ?? [];
  }

  /** Plays of a player in an event on which the dimension is known. */
  known(event: number, player: number): number {
    return this.#known[event * this.#players + player] ?? 0;
  }

  count(event: number, player: number, value: number): number {
    return this.#counts[(event * this.#players + player) * this.#values + value] ?? 0;
  }

  /** Players of whom anything is known in the event. */
  playersSeen(event: number): number[] {
    return Array.from({ length: this.#players }, (_, player) => player).filter(
      (player) => this.known(event, player) > 0,
    );
  }
}
