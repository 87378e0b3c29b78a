import type { AnswerModel } from '../answers/answer-model.js';
import { SituationCounts } from '../answers/situation-counts.js';
import type { Classification, SituationSettings } from '../football/situations.js';
import { elementAt } from '../statistics/element-at.js';
import type { Side } from '../tendencies/tendency-plays.js';
import { CELLS, cellPartitions, type CellPlan } from './sheet-cells.js';

const PARTITIONS = [...new Set(CELLS.map(({ partition }) => partition))];

/** An archive cut into the cells of a sheet: the same for everybody that one is made against, and worked out once. */
export class SheetField {
  /** Of each partition the place of a play's cell among the cells that draw on plays of their own, -1 outside. */
  readonly #cuts: ReadonlyMap<CellPlan['partition'], Classification>;
  readonly #counts: Readonly<Record<Side, ReadonlyMap<CellPlan['partition'], SituationCounts>>>;

  /** @param clock - by clock and score, of the model's batch */
  constructor(
    readonly model: AnswerModel,
    clock: Classification,
    settings: SituationSettings,
  ) {
    const partitions = cellPartitions(model.facts, clock, settings);
    this.#cuts = new Map(PARTITIONS.map((partition) => [partition, cut(partition, partitions[partition])]));
    const counts = (side: Side): ReadonlyMap<CellPlan['partition'], SituationCounts> =>
      new Map([...this.#cuts].map(([partition, by]) => [partition, new SituationCounts(model, side, by)]));
    this.#counts = { offense: counts('offense'), defense: counts('defense') };
  }

  /** Counts among which those of the cell go by its `drawsOn`. */
  counts(side: Side, { partition }: CellPlan): SituationCounts {
    return known(this.#counts[side].get(partition), partition);
  }

  /** The plays of a cell among some. */
  placesIn(plan: CellPlan, places: readonly number[]): number[] {
    const { codes, names } = known(this.#cuts.get(plan.partition), plan.partition);
    const cell = names.indexOf(plan.drawsOn);
    return places.filter((play) => codes[play] === cell);
  }
}

function cut(partition: CellPlan['partition'], { codes, names }: Classification): Classification {
  const cells = CELLS.filter((plan) => plan.partition === partition && plan.drawsOn === plan.key);
  const cellOf = names.map((name) => cells.findIndex(({ parts }) => parts.includes(name)));
  return {
    codes: codes.map((code) => (code < 0 ? -1 : elementAt(cellOf, code))),
    names: cells.map(({ key }) => key),
  };
}

function known<Found>(found: Found | undefined, partition: string): Found {
  if (found === undefined) throw new RangeError(`no cell is cut by ${partition}`);
  return found;
}
