import { benjaminiHochberg } from '../../statistics/benjamini-hochberg.js';
import { twoLevelSelection } from '../../statistics/two-level-selection.js';
import type { HabitSource, HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { HABIT_LEVEL } from './off-the-field.js';

/** A topic that holds shares against the field, and whose. */
export interface HeldTopic {
  readonly source: HabitSource;
  readonly topic: (source: HeldSource) => HabitTopic;
}

/**
 * Topics that hold shares against the field, all of a report's together. Each asks whether any share of its own is unlike
 * the field's (Simes over its p-values); topics are selected by Benjamini and Hochberg's rule, and inside those shares are
 * found at level x selected / asked. So of a player who is like everybody something is said one time in twenty, and not one
 * time in twenty a topic; one who is unlike in many ways is judged much as by each topic alone. Each is asked for its
 * p-values first, and again where some of them stand.
 *
 * @see Simes (1986), Biometrika 73, 751–754; Benjamini & Bogomolov (2014), J. R. Stat. Soc. B 76, 297–318
 */
export function heldTopics(topics: readonly HeldTopic[]): HabitTopic[] {
  const first = topics.map((held) => ({ ...held, ...listenTo(held) }));
  const asked = first.filter(({ pValues }) => pValues.length > 0);
  const selections = twoLevelSelection(
    asked.map(({ pValues: members }) => ({
      pValue: Math.min(...benjaminiHochberg(members, HABIT_LEVEL).adjusted),
      members,
    })),
    HABIT_LEVEL,
  );
  return first.map((held) => {
    const stands = selections[asked.indexOf(held)]?.rejected ?? [];
    return stands.includes(true) ? held.topic({ ...held.source, standing: () => stands }) : held.silent;
  });
}

/** The p-values of a topic's shares, and what it says where none of them stands. */
function listenTo({ source, topic }: HeldTopic): { readonly pValues: readonly number[]; readonly silent: HabitTopic } {
  let pValues: readonly number[] = [];
  const silent = topic({
    ...source,
    standing: (heard) => {
      pValues = heard;
      return heard.map(() => false);
    },
  });
  return { pValues, silent };
}
