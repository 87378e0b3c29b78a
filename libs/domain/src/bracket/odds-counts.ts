import { emptyOdds, type MeetingOdds, type OddsRound } from './odds-shape.js';

/** Met before the first simulated event, so never to be counted again. */
const FOR_GOOD = 2 ** 31 - 1;

/** Counts over simulated events of what `MeetingOdds` gives as probabilities. */
export class OddsCounts {
  // Half the size of a double: the counts of an event of 256 stay in the nearest cache.
  readonly plays: Uint32Array;
  readonly exits: Uint32Array;
  readonly title: Uint32Array;
  private readonly meets: Uint32Array;
  private readonly meetsAtAll: Uint32Array;
  /** By entrant, the last event in which the player asked for met this one. */
  private readonly metIn: Int32Array;

  constructor(
    private readonly entrants: number,
    private readonly rounds: readonly OddsRound[],
    private readonly events: number,
  ) {
    const cells = rounds.length * entrants;
    this.plays = new Uint32Array(cells);
    this.exits = new Uint32Array(cells);
    this.title = new Uint32Array(entrants);
    this.meets = new Uint32Array(cells);
    this.meetsAtAll = new Uint32Array(entrants);
    this.metIn = new Int32Array(entrants).fill(-1);
  }

  /** The player asked for met an entrant in an event; `row` is where the round begins. */
  meet(row: number, opponent: number, event: number): void {
    this.meets[row + opponent] = (this.meets[row + opponent] ?? 0) + 1;
    if ((this.metIn[opponent] ?? 0) >= event) return;
    this.metIn[opponent] = event;
    this.meetsAtAll[opponent] = (this.meetsAtAll[opponent] ?? 0) + 1;
  }

  /** The two met before: in every event. */
  metBefore(row: number, opponent: number): void {
    this.meets[row + opponent] = this.events;
    this.meetsAtAll[opponent] = this.events;
    this.metIn[opponent] = FOR_GOOD;
  }

  odds(): MeetingOdds {
    const share = (counts: Uint32Array): Float64Array => Float64Array.from(counts, (count) => count / this.events);
    return {
      ...emptyOdds(this.entrants, this.rounds, this.events),
      plays: share(this.plays),
      exits: share(this.exits),
      title: share(this.title),
      meets: share(this.meets),
      meetsAtAll: share(this.meetsAtAll),
    };
  }
}
