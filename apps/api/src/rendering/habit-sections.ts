import type { HabitTopic, ReportHabits } from '#domain/reports/habits/habits-shape.js';
import { isTold } from './could-not-tell.js';
import { lowerFirst } from './plain-words.js';
import type { Section, SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';

/** The part of a report on habits, in the order of what can be acted on first. */
const HABIT_PARTS = [
  { id: 'gives-away', title: 'What gives it away', part: 'givesAway' },
  { id: 'sequences', title: 'Sequences and answers', part: 'sequences' },
  { id: 'changed', title: 'What changed', part: 'changed' },
] as const satisfies readonly { id: string; title: string; part: keyof ReportHabits }[];

/** A part of the habits with the topics that have something to say. */
interface ToldPart {
  readonly id: string;
  readonly title: string;
  readonly part: (typeof HABIT_PARTS)[number]['part'];
  readonly topics: readonly HabitTopic[];
}

/** None for a report of the first format; a part whose topics are all silent is told among what could not be told. */
export function toldHabits(habits: ReportHabits | undefined): ToldPart[] {
  if (habits === undefined) return [];
  return HABIT_PARTS.flatMap((named) => {
    const all = habits[named.part];
    const topics = all.filter(isTold);
    return topics.length === 0 && all.length > 0 ? [] : [{ ...named, topics }];
  });
}

export function habitSections(habits: ReportHabits | undefined): Section[] {
  return toldHabits(habits).map(({ title, topics }) => ({
    title,
    blocks: topics.length === 0 ? [text(NO_HABITS)] : topics.flatMap(topicBlocks),
  }));
}

/** What stands where neither side has a snap. */
export const NO_HABITS = 'Nothing of this player is charted.';

function topicBlocks({ side, title, note, claims }: HabitTopic): SectionBlock[] {
  const name = side === 'offense' ? 'Offense' : 'Defense';
  const head = text(`${name}, ${lowerFirst(title)}: ${note}.`);
  return claims.length === 0 ? [head] : [head, list(claims.map(claimWords))];
}

/** What is unproven without saying so itself is told apart in words, not by its place. */
export function claimWords({ words, status, count, games }: HabitTopic['claims'][number]): string {
  const once = status !== 'unproven' && games === 1 && count > 1 ? '; in one game only' : '';
  return `${words}${once}`;
}
