import { DIAL, dialStop, type DialStop } from '../answers/call-mix.js';
import { fittingCalls } from '../answers/fitting-calls.js';
import { menuOptions, type CallOption } from '../answers/options.js';
import type { SituationCounts } from '../answers/situation-counts.js';
import { theirCalls, type TheirCalls } from '../answers/their-calls.js';
import { elementAt } from '../statistics/element-at.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { CallSheetInput } from './call-sheet-input.js';
import type { Gain, SheetCall } from './call-sheet-shape.js';
import { mixedOrder } from './mixed-order.js';
import { CELLS, type CellPlan } from './sheet-cells.js';
import { habitsIn, habitsOf, playsOf, type FoundHabit } from './their-habits.js';

/** Calls of a cell with the order to call them in, and what they are worth. */
export interface PlannedMix {
  readonly calls: readonly SheetCall[];
  readonly order: readonly number[];
  readonly gain: Gain | null;
  readonly guarantee: number | null;
}

/** A cell both ways: as the base sheet has it, and as it would be against this opponent. */
export interface PlannedCell {
  readonly plan: CellPlan;
  readonly snaps: number;
  readonly games: number;
  readonly theirs: readonly FoundHabit[];
  readonly base: PlannedMix;
  readonly against: PlannedMix;
  /** Whether the two call differently. */
  readonly isOther: boolean;
  /** Points a play that the change gains if they go on as they are. */
  readonly worth: number;
  /** Set where the cell stands for another one. */
  readonly standsFor: string | null;
}

const MOST_CALLS = 3;
const TURNS = 8;
/** A call that comes up less often than once in so many turns is none to remember. */
const LEAST_SHARE = 1 / TURNS;
const NO_MIX: PlannedMix = { calls: [], order: [], gain: null, guarantee: null };
/** Of nobody: the field alone says what is called. */
const NOBODY = -1;

/** Plans the cells of one side of ours. */
export function cellMaker(input: CallSheetInput, side: Side): (plan: CellPlan) => PlannedCell {
  const { field, menu, opponent } = input;
  const { model } = field;
  const theirSide = side === 'offense' ? 'defense' : 'offense';
  const installed = menuOptions(model, menu, side);
  const [habit, theirPlays] = [habitsOf(model, theirSide), playsOf(model, theirSide, opponent)];
  return (plan) => {
    const ours = fittingCalls(installed, field.counts(side, plan), plan.drawsOn);
    const counts = field.counts(theirSide, plan);
    const mixOf = (player: number): SolvedMix | null =>
      solvedMix(input, ours, counts, plan.drawsOn, theirCalls(model, counts, plan.drawsOn, player));
    const [base, against] = [mixOf(NOBODY), mixOf(opponent)];
    const { habits, snaps, games } = habitsIn(model, habit, field.placesIn(plan, theirPlays), input.confidence);
    // The same cell calls in the same order whoever it is made against, so that what is known by heart stays.
    const seed = input.seed + 1000 * (side === 'offense' ? 1 : 2) + CELLS.indexOf(plan);
    const [planned, other] = [plannedMix(base, against, ours, seed), plannedMix(against, against, ours, seed)];
    return {
      plan,
      snaps,
      games,
      theirs: habits,
      base: planned,
      against: other,
      isOther: namesOf(planned) !== namesOf(other),
      worth: (other.gain?.mean ?? 0) - (planned.gain?.mean ?? 0),
      standsFor: plan.note ?? null,
    };
  };
}

/** A game of a cell with its mix. */
interface SolvedMix {
  readonly payoffs: readonly (readonly number[])[];
  readonly theirShares: readonly number[];
  readonly stop: DialStop;
}

function solvedMix(
  { payoffs, confidence, seed, lean }: CallSheetInput,
  ours: readonly CallOption[],
  counts: SituationCounts,
  cell: string,
  theirs: TheirCalls,
): SolvedMix | null {
  if (payoffs === null || ours.length === 0 || theirs.options.length === 0) return null;
  const game = payoffs.game(counts.side, ours, theirs.options, theirs.alpha, counts.groupShares(cell));
  const nearest = DIAL.reduce((near, stop) => (Math.abs(stop - lean) < Math.abs(near - lean) ? stop : near));
  return { payoffs: game.payoffs, ...dialStop(game, nearest, { confidence, seed }) };
}

/** @param faced - against whom the gain is told; null where nothing of them can be weighed */
function plannedMix(
  mix: SolvedMix | null,
  faced: SolvedMix | null,
  ours: readonly CallOption[],
  seed: number,
): PlannedMix {
  if (mix === null) return NO_MIX;
  const ranked = mix.stop.shares
    .map((share, call) => ({ share, call }))
    .filter(({ share }) => share >= LEAST_SHARE)
    .sort((one, other) => other.share - one.share || one.call - other.call)
    .slice(0, MOST_CALLS);
  const kept = neverAlone(ranked, mix);
  const total = kept.reduce((sum, { share }) => sum + share, 0);
  const shares = kept.map(({ share }) => share / total);
  const order = kept.length === 1 ? [0] : mixedOrder(shares, TURNS, seededRandom(seed));
  const calls = kept.flatMap(({ call }, place): SheetCall[] => {
    const option = elementAt(ours, call);
    const turns = order.filter((turn) => turn === place).length;
    return option.menu === null ? [] : [{ menuCallId: option.menu.id, name: option.menu.name, turns }];
  });
  return {
    calls,
    order,
    gain:
      faced === null
        ? null
        : gainOf(
            kept.map(({ call }, place) => [call, shares[place] ?? 0]),
            faced,
          ),
    guarantee: mix === faced ? mix.stop.ifTheyAdjust.guarantee : null,
  };
}

/** A single call beside the next best: a caller of one call is read. Common practice, no source. */
const WITH_ANOTHER = 5 / TURNS;

interface RankedCall {
  readonly share: number;
  readonly call: number;
}

function neverAlone(ranked: readonly RankedCall[], { payoffs, theirShares, stop }: SolvedMix): readonly RankedCall[] {
  if (ranked.length > 1) return ranked;
  const first = ranked[0]?.call ?? largest(stop.shares);
  const gains = payoffs.map((row) =>
    row.reduce((gain, payoff, theirs) => gain + payoff * (theirShares[theirs] ?? 0), 0),
  );
  const next = largest(gains.map((gain, call) => (call === first ? -Infinity : gain)));
  if (next === first) return [{ share: 1, call: first }];
  return [
    { share: WITH_ANOTHER, call: first },
    { share: 1 - WITH_ANOTHER, call: next },
  ];
}

function gainOf(kept: readonly (readonly [call: number, share: number])[], faced: SolvedMix): Gain {
  const mean = kept.reduce(
    (sum, [call, share]) =>
      sum +
      share *
        (faced.payoffs[call] ?? []).reduce(
          (gain, payoff, theirs) => gain + payoff * (faced.theirShares[theirs] ?? 0),
          0,
        ),
    0,
  );
  // The width of the solved mix's own interval: the calls left out are the seldom ones.
  const { interval, mean: solved } = faced.stop.ifTheyStay;
  return { mean, interval: { lower: mean + interval.lower - solved, upper: mean + interval.upper - solved } };
}

function largest(values: readonly number[]): number {
  return values.indexOf(Math.max(...values));
}

function namesOf({ calls }: PlannedMix): string {
  return calls
    .map(({ name }) => name)
    .sort()
    .join();
}
