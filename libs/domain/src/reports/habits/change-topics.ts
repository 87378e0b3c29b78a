import type { RandomSource } from '../../statistics/seeded-random.js';
import { subsetCount } from '../../statistics/subsets.js';
import {
  DEFAULT_DRIFT,
  drift,
  type DimensionDrift,
  type DriftedShare,
  type DriftSettings,
} from '../../tendencies/drift/drift.js';
import { periodsByHalf, periodsByOrder, type Periods } from '../../tendencies/drift/periods.js';
import { callWords } from '../../tendencies/words/call-verbs.js';
import { counted, FEWEST_FOR_PERCENT } from '../../tendencies/words/count-words.js';
import { dimensionDriftWords, driftedShareWords } from '../../tendencies/words/drift-words.js';
import { snapsAndGames } from '../../tendencies/words/rests-on-words.js';
import { DRIFTING } from './drifting-dimensions.js';
import { foundNothingOn, habitTopic, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';

/** Moves that are not proven are named only where they are large, and not many of them. */
const MOST_UNPROVEN = 3;
const LEAST_MOVE = 0.1;

/** @param order - places of the charts in the batch, in the order in which the games were played */
export function driftTopic(source: HabitSource, order: readonly number[], random: RandomSource): HabitTopic {
  const recent = Math.ceil(order.length / 2);
  const earlier = order.length - recent;
  const between = `${counted(earlier, 'earlier game')} against ${counted(recent, 'recent one')}`;
  if (earlier === 0) {
    const none = 'fewer than two games of known date: nothing to hold against each other';
    return habitTopic(source, 'drift', none, [], 'nothing to compare with');
  }
  const found = drifts(source, periodsByOrder(source.asked.facts, order, recent), 'game', random);
  const least = leastPValue(earlier, recent);
  const tooFew =
    least > DEFAULT_DRIFT.level
      ? `; with so few games chance alone does as much in ${Math.round(1 / least)} orders once, so nothing can be proven`
      : '';
  const moved = found.filter(({ drifted }) => drifted);
  const findings = [
    ...moved.flatMap((dimension) => movedFindings(dimension, found)),
    ...(moved.length > 0 ? [] : unprovenFindings(found)),
  ];
  const note =
    moved.length > 0
      ? moved.map((one) => dimensionDriftWords(one, found.length)).join('; ')
      : `${between}: no mix of ${found.length} is shown to have moved`;
  return habitTopic(source, 'drift', `${note}${tooFew}`, findings, tooFew === '' ? 'not found' : 'too little film');
}

/** Within the games: the second half against the first. Only what stands is worth a line. */
export function withinGamesTopic(source: HabitSource, random: RandomSource): HabitTopic {
  const found = drifts(source, periodsByHalf(source.asked.facts), 'half', random);
  const moved = found.filter(({ drifted }) => drifted);
  const note =
    found.length === 0
      ? 'no quarters are charted on both sides of half-time'
      : moved.length === 0
        ? `no mix of ${found.length} is shown to move at half-time`
        : 'before and since mean before and after half-time';
  return habitTopic(
    source,
    'withinGames',
    note,
    moved.flatMap((dimension) => movedFindings(dimension, found)),
    found.length === 0 ? 'nothing to compare with' : foundNothingOn(snapsAndGames(source.asked.facts).snaps),
  );
}

function drifts(
  { side, asked }: HabitSource,
  periods: Periods,
  unit: DriftSettings['unit'],
  random: RandomSource,
): DimensionDrift[] {
  return drift(asked, DRIFTING[side], periods, { ...DEFAULT_DRIFT, unit }, random);
}

/** A mix that drifted without one share that did is told by its furthest one. */
function movedFindings(of: DimensionDrift, found: readonly DimensionDrift[]): HabitFinding[] {
  const moved = of.shares.filter((share) => share.moved);
  return (moved.length > 0 ? moved : of.shares.slice(0, 1)).map((share) =>
    findingOf(of, share, found, share.moved ? 'established' : 'unproven'),
  );
}

function unprovenFindings(found: readonly DimensionDrift[]): HabitFinding[] {
  return (
    found
      .flatMap((of) => of.shares.map((share) => ({ of, share })))
      // Of two values one says what the other says.
      .filter(({ of, share }) => of.shares.length > 2 || grew(share))
      .filter(
        ({ share: { earlier, recent, difference } }) =>
          Math.min(earlier.known, recent.known) >= FEWEST_FOR_PERCENT &&
          distance({ earlier, recent }) >= LEAST_MOVE &&
          difference !== null &&
          (difference.lower > 0 || difference.upper < 0),
      )
      .sort((a, b) => a.share.pValue - b.share.pValue || distance(b.share) - distance(a.share))
      .slice(0, MOST_UNPROVEN)
      .map(({ of, share }) => findingOf(of, share, found, 'unproven'))
  );
}

function grew({ earlier, recent }: DriftedShare): boolean {
  return (recent.raw?.share ?? 0) >= (earlier.raw?.share ?? 0);
}

function distance({ earlier, recent }: Pick<DriftedShare, 'earlier' | 'recent'>): number {
  return Math.abs((recent.raw?.share ?? 0) - (earlier.raw?.share ?? 0));
}

function findingOf(
  { dimension }: DimensionDrift,
  share: DriftedShare,
  found: readonly DimensionDrift[],
  status: 'established' | 'unproven',
): HabitFinding {
  const { value, recent } = share;
  return {
    count: recent.count,
    known: recent.known,
    evidence: recent.evidence,
    key: [dimension, value.key],
    label: `${callWords(dimension, value.label)}, lately`,
    words: driftedShareWords(dimension, share, found, 'scout'),
    status,
  };
}

/** The smallest p-value that moving whole games can give: one order in as many as there are, or two where they mirror. */
function leastPValue(earlier: number, recent: number): number {
  return (earlier === recent ? 2 : 1) / subsetCount(earlier + recent, earlier);
}
