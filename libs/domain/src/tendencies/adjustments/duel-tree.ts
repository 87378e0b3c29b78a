import { assertCount } from '../../statistics/guards.js';
import { Evidence } from '../evidence.js';
import type { Results } from '../results-shape.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { countedShare, type CountedShare } from '../decisions/counted-share.js';
import { resultsOfPlays } from '../decisions/results-of-plays.js';
import { resultCounts } from '../value-tallies.js';
import { readDuels, type DuelStep, type Duels } from './duel-steps.js';

/** A point that the duel before the snap can reach: who did what, in order. */
export interface DuelNode {
  /** Empty at the root. */
  readonly path: readonly DuelStep[];
  /** Plays whose duel begins with this path, of those that came to the step before; at the root, of all snaps. */
  readonly share: CountedShare;
  /** Plays on which the ball was snapped here, without another move. */
  readonly snapped: number;
  /** Of all plays that came this far, whatever followed. */
  readonly results: Results;
  /** Most frequent first. */
  readonly children: readonly DuelNode[];
}

export interface DuelTree {
  /** Counting snaps, and those on which the duel is known: an empty list is known, a missing one is not. */
  readonly snaps: number;
  readonly known: number;
  readonly root: DuelNode;
}

/**
 * The duel before the snap as a tree of what either side did, in order: share, n, interval and result at each point.
 * Snaps on which the chart does not say are not taken for snaps without a move; at the root the share is of snaps on
 * which the duel is known.
 *
 * @param asked   - any plays of the player, either side of the ball
 * @param deepest - moves after which plays are no longer told apart, ≥ 1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function duelTree(asked: AskedPlays, deepest: number): DuelTree {
  assertCount('deepest', deepest, { min: 1 });
  const { facts, field, player, vocabulary, confidence } = asked;
  const own = duelPlays(facts, allPlaces(facts), readDuels(facts, vocabulary));
  const others =
    field === null ? null : duelPlays(field.facts, othersPlaces(field, player), readDuels(field.facts, vocabulary));
  const snaps = facts.counts.reduce((sum, counts) => sum + counts, 0);
  const root = nodeOf([], own, others, { own: snaps, others: null }, { deepest, confidence });
  return { snaps, known: own.places.length, root };
}

/** Plays of a batch with a known duel, all at the same point of the tree. */
interface DuelPlays {
  readonly facts: TendencyPlays;
  readonly duels: Duels;
  readonly places: Int32Array;
}

function duelPlays(facts: TendencyPlays, places: Int32Array, duels: Duels): DuelPlays {
  return { facts, duels, places: places.filter((play) => facts.counts[play] === 1 && duels.of(play) !== null) };
}

function nodeOf(
  path: readonly DuelStep[],
  own: DuelPlays,
  others: DuelPlays | null,
  came: { readonly own: number; readonly others: number | null },
  settings: { readonly deepest: number; readonly confidence: number },
): DuelNode {
  const { facts, duels, places } = own;
  const depth = path.length;
  const moved = byNextStep(own, depth);
  const othersMoved = others === null ? null : byNextStep(others, depth);
  const next = depth >= settings.deepest ? [] : [...moved.values()];
  const here = new Set(places);
  const fieldCounts =
    others === null || came.others === null ? null : { count: others.places.length, known: came.others };
  return {
    path,
    share: countedShare(
      { count: places.length, known: came.own },
      fieldCounts,
      settings.confidence,
      new Evidence(facts.plays, places, (play) => here.has(play)),
    ),
    snapped: places.reduce((sum, play) => sum + ((duels.of(play)?.length ?? 0) === depth ? 1 : 0), 0),
    results: resultsOfPlays(
      facts,
      places,
      others === null ? null : resultCounts(others.facts, others.places),
      settings.confidence,
    ),
    children: next
      .map(({ step, places: onwards }) => {
        const field = others === null ? null : { ...others, places: othersMoved?.get(step.termId)?.places ?? NOBODY };
        return nodeOf(
          [...path, step],
          { ...own, places: onwards },
          field,
          { own: places.length, others: others?.places.length ?? null },
          settings,
        );
      })
      .sort((first, second) => second.share.count - first.share.count),
  };
}

const NOBODY = new Int32Array(0);

/** The plays that go on from a depth, by the term of their next move. */
function byNextStep(
  { duels, places }: DuelPlays,
  depth: number,
): ReadonlyMap<number, { readonly step: DuelStep; readonly places: Int32Array }> {
  const groups = new Map<number, number[]>();
  for (const play of places) {
    const code = duels.of(play)?.[depth];
    if (code === undefined) continue;
    const group = groups.get(code) ?? [];
    groups.set(code, group);
    group.push(play);
  }
  return new Map(
    [...groups].flatMap(([code, group]) => {
      const step = duels.steps[code];
      return step === undefined ? [] : [[step.termId, { step, places: Int32Array.from(group) }] as const];
    }),
  );
}
