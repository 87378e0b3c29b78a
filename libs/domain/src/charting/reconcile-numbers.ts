import type { ReconciledPlay, Reconciliation } from './reconcile.js';

/** A snap of one chart: what evidence cites. */
export interface PlayReference {
  readonly chartId: string;
  readonly playNumber: number;
}

/** A number that was given to a reconciled snap, and the records it was made of then. */
export interface NumberedPlay {
  readonly playNumber: number;
  readonly members: readonly PlayReference[];
}

/** The records that a reconciled snap is made of. */
export function membersOf({ charts }: Reconciliation, play: ReconciledPlay): readonly PlayReference[] {
  return play.members.flatMap((playNumber, chart) =>
    playNumber === null ? [] : [{ chartId: charts[chart] ?? '', playNumber }],
  );
}

/**
 * Numbers for the snaps of a reconciliation that is made anew: a snap keeps the number that was given when it, or another
 * record of the same snap, was reconciled last, so that what was cited stays what it was. Others get numbers that were
 * never used.
 *
 * @param before     - what was numbered last time
 * @param lastNumber - the highest number ever given; 0 at first
 * @returns numbers aligned with the snaps, and the highest number given by now
 */
export function numberReconciled(
  reconciliation: Reconciliation,
  before: readonly NumberedPlay[],
  lastNumber: number,
): { readonly numbers: readonly number[]; readonly lastNumber: number } {
  const given = new Map(
    before.flatMap(({ playNumber, members }) => members.map((member) => [key(member), playNumber])),
  );
  const taken = new Set<number>();
  let last = lastNumber;
  const kept = reconciliation.plays.map((play) => {
    const numbers = membersOf(reconciliation, play).map((member) => given.get(key(member)));
    const number = numbers.find((candidate) => candidate !== undefined && !taken.has(candidate)) ?? null;
    if (number !== null) taken.add(number);
    return number;
  });
  const numbers = kept.map((number) => number ?? (last += 1));
  return { numbers, lastNumber: last };
}

function key({ chartId, playNumber }: PlayReference): string {
  return `${chartId} ${playNumber}`;
}
