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
 * time in twenty a topic; one who is unlike in many ways is judged much as by each topic alone. Each is asked twice: to
 * hear its p-values, and to be told which of them stand.
 *
 * @see Simes (1986), Biometrika 73, 751–754; Benjamini & Bogomolov (2014), J. R. Stat. Soc. B 76, 297–318
 */
export function heldTopics(topics: readonly HeldTopic[]): HabitTopic[] {
  const members = topics.map(({ source, topic }) => {
    let heard: readonly number[] = [];
    topic({
      ...source,
      standing: (pValues) => {
        heard = pValues;
        return [];
      },
    });
    return heard;
  });
  const asked = members.filter(({ length }) => length > 0);
  const selections = twoLevelSelection(
    asked.map((pValues) => ({
      pValue: Math.min(...benjaminiHochberg(pValues, HABIT_LEVEL).adjusted),
      members: pValues,
    })),
    HABIT_LEVEL,
  );
  return topics.map(({ source, topic }, place) => {
    const stands = selections[asked.indexOf(members[place] ?? [])]?.rejected ?? [];
    return topic({ ...source, standing: () => stands });
  });
}
