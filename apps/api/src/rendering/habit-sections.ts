import type { HabitTopic, ReportHabits } from '#domain/reports/habits/habits-shape.js';
import type { Section, SectionBlock } from './section-shape.js';

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
    blocks: habits[part].length === 0 ? [nothing()] : habits[part].flatMap(topicBlocks),
  }));
}

/** What stands where neither side has a snap. */
export const NO_HABITS = 'Nothing of this player is charted.';

function nothing(): SectionBlock {
  return { kind: 'text', text: NO_HABITS };
}

function topicBlocks({ side, title, note, claims }: HabitTopic): SectionBlock[] {
  const name = side === 'offense' ? 'Offense' : 'Defense';
  const head: SectionBlock = { kind: 'text', text: `${name}, ${lowerFirst(title)}: ${note}.` };
  if (claims.length === 0) return [head];
  return [
    head,
    { kind: 'list', ordered: false, items: claims.map((claim) => ({ text: claimWords(claim), url: null })) },
  ];
}

/** What is unproven without saying so itself is told apart in words, not by its place. */
export function claimWords({ words, status, count, games }: HabitTopic['claims'][number]): string {
  const once = status !== 'unproven' && games === 1 && count > 1 ? '; in one game only' : '';
  return `${words}${once}`;
}

function lowerFirst(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}
