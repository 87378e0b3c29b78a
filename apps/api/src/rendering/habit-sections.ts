import type { HabitTopic, ReportHabits } from '#domain/reports/habits/habits-shape.js';
import type { Section, SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';

/** The part of a report on habits, in the order of what can be acted on first. */
export const HABIT_PARTS = [
  { id: 'gives-away', title: 'What gives it away', part: 'givesAway' },
  { id: 'sequences', title: 'Sequences and answers', part: 'sequences' },
  { id: 'changed', title: 'What changed', part: 'changed' },
] as const satisfies readonly { id: string; title: string; part: keyof ReportHabits }[];

/** No sections for a report of the first format. */
export function habitSections(habits: ReportHabits | undefined): Section[] {
  if (habits === undefined) return [];
  return HABIT_PARTS.map(({ title, part }) => ({
    title,
    blocks: habits[part].length === 0 ? [text(NO_HABITS)] : habits[part].flatMap(topicBlocks),
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

function lowerFirst(words: string): string {
  return `${words.slice(0, 1).toLowerCase()}${words.slice(1)}`;
}
