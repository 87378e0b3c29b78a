import type { DimensionName } from '../../tendencies/dimension-names.js';
import { openers, type OpenerValue, type Openers } from '../../tendencies/sequences/openers.js';
import { reactions, type Reaction, type ReactionValue } from '../../tendencies/sequences/reactions.js';
import { repeatHabits, type RepeatHabit } from '../../tendencies/sequences/repeat-habits.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { callWords } from '../../tendencies/words/call-verbs.js';
import { counted, FEWEST_FOR_PERCENT, UNLIKELY } from '../../tendencies/words/count-words.js';
import { openerWords, reactionWords, repeatWords } from '../../tendencies/words/sequence-words.js';
import {
  foundNothingOn,
  habitTopic,
  ofShare,
  type HabitFinding,
  type HabitSource,
  type HeldSource,
} from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { isApart, offTheField } from './off-the-field.js';

/** What a side calls, the plainest first. */
const OPENED = {
  offense: ['called', 'concept'],
  defense: ['pressure', 'coverage'],
} as const satisfies Record<Side, readonly DimensionName[]>;

const REACTED = {
  offense: ['callFamily'],
  defense: ['pressure', 'coverage'],
} as const satisfies Record<Side, readonly DimensionName[]>;

/** What must be the same to be the same again; run or pass would repeat all the time. */
const REPEATED = {
  offense: ['callFamily', 'concept'],
  defense: ['coverage', 'front'],
} as const satisfies Record<Side, readonly DimensionName[]>;

/** Half of the usual script of fifteen: short quarters have few snaps. A choice, no source. */
const OPENING_SNAPS = 8;
const MOST_USUAL = 2;
/** What is called less often than one time in three is no opener. A choice, no source. */
const USUAL = 1 / 3;

interface OpenerCell {
  readonly of: Openers['of'];
  readonly dimension: DimensionName;
  readonly value: OpenerValue;
}

/** The first snaps of games and second halves: what is called most, and what is called unlike the field. */
export function openersTopic(source: HeldSource): HabitTopic {
  const { side, asked } = source;
  const found = OPENED[side].flatMap((dimension) =>
    openers(asked, dimension, OPENING_SNAPS).map((opening) => ({ dimension, opening })),
  );
  const cells = found.flatMap(({ dimension, opening: { of, values } }) =>
    values.map((value): OpenerCell => ({ of, dimension, value })),
  );
  const standing = offTheField(source, cells, ({ value }) => value.share, 'more').filter(
    ({ value: { share, later } }) => isApart(share, later, asked.confidence),
  );
  const usual = found.flatMap(({ dimension, opening: { of, values } }): OpenerCell[] =>
    values
      .slice(0, 1)
      .filter(({ share: { count, known } }) => of === 'game' && known >= FEWEST_FOR_PERCENT && count >= USUAL * known)
      .map((value) => ({ of, dimension, value })),
  );
  const games = found[0]?.opening.games.length ?? 0;
  const seen = new Set<string>();
  const findings = [...standing, ...usual].flatMap((cell): HabitFinding[] => {
    const { of, dimension, value } = cell;
    const key = [of, dimension, value.value.key];
    if (seen.has(key.join()) || (!standing.includes(cell) && seen.size >= MOST_USUAL + standing.length)) return [];
    seen.add(key.join());
    return [
      {
        ...ofShare(value.share),
        key,
        label: `${callWords(dimension, value.value.label)} among the first snaps of a ${of}`,
        words: openerWords(of, OPENING_SNAPS, dimension, value, 'scout'),
        status: standing.includes(cell) ? 'established' : 'counted',
      },
    ];
  });
  return habitTopic(
    source,
    'openers',
    games === 0
      ? 'the first snaps of no game are charted'
      : findings.length === 0
        ? `the openings of ${counted(games, 'game')} show nothing of their own`
        : `from ${counted(games, 'game')}`,
    findings,
    foundNothingOn(Math.max(0, ...cells.map(({ value }) => value.share.known))),
  );
}

/** Does the side do the same again after it worked, or after it did not? */
export function repeatsTopic(source: HabitSource): HabitTopic {
  const { side, asked } = source;
  const found = REPEATED[side].flatMap((dimension) =>
    repeatHabits(asked, dimension).map((habit) => ({ dimension, habit })),
  );
  // Each question is one of a few; the level is shared out among them.
  const level = UNLIKELY / found.length;
  const isFound = ({ test }: RepeatHabit): boolean => test !== null && test.pValue < level;
  const pairs = found.reduce((sum, { habit }) => sum + habit.repeated.known, 0);
  const telling = found
    .filter(({ habit }) => isFound(habit))
    .map(({ dimension, habit }) => ({
      ...ofShare(habit.repeated),
      key: [dimension, habit.after],
      label: `the same ${dimension === 'callFamily' ? 'call family' : dimension} again after a ${habit.after}`,
      words: repeatWords(habit, dimension, 'scout'),
      status: 'established' as const,
    }));
  const note =
    pairs === 0
      ? 'no two snaps in a row of one drive are known'
      : telling.length === 0
        ? `no more and no less often than chance after ${found.map((one) => repeatedCounts(one)).join(', ')}`
        : 'held against the own mix inside situation and game';
  return habitTopic(source, 'repeats', note, telling, foundNothingOn(pairs));
}

function repeatedCounts({ dimension, habit }: { dimension: DimensionName; habit: RepeatHabit }): string {
  const { count, known } = habit.repeated;
  return `a ${habit.after} (${dimension === 'callFamily' ? 'family' : dimension} ${count} of ${known})`;
}

interface ReactionCell {
  readonly dimension: DimensionName;
  readonly reaction: Reaction;
  readonly value: ReactionValue;
}

/** The snap after a sack, a turnover, an explosive play. */
export function reactionsTopic(source: HeldSource): HabitTopic {
  const { side, asked } = source;
  const found = REACTED[side].flatMap((dimension) =>
    reactions(asked, dimension).map((reaction) => ({ dimension, reaction })),
  );
  const cells = found.flatMap(({ dimension, reaction }) =>
    reaction.values.map((value): ReactionCell => ({ dimension, reaction, value })),
  );
  const standing = offTheField(source, cells, ({ value }) => value.share, 'more').filter(
    ({ value: { share, otherwise } }) => isApart(share, otherwise, asked.confidence),
  );
  const usual = found.flatMap(({ dimension, reaction }) =>
    cells
      .filter((cell) => cell.reaction === reaction && cell.dimension === dimension)
      .filter(({ value }) => value.share.known >= FEWEST_FOR_PERCENT && 2 * value.share.count > value.share.known)
      .slice(0, 1),
  );
  const events = found.slice(0, found.length / REACTED[side].length).map(({ reaction }) => reaction);
  const snaps = events.map(({ event, snaps: after }) => `${event} ${after}`).join(', ');
  return habitTopic(
    source,
    'reactions',
    `snaps after each: ${snaps}${standing.length === 0 ? '; none unlike what the field does after the same' : ''}`,
    [...new Set([...standing, ...usual])].map((cell) => {
      const { dimension, reaction, value } = cell;
      return {
        ...ofShare(value.share),
        key: [reaction.event, dimension, value.value.key],
        label: `${callWords(dimension, value.value.label)} after: ${reaction.event}`,
        words: reactionWords(reaction, dimension, value, 'scout'),
        status: standing.includes(cell) ? ('established' as const) : ('counted' as const),
      };
    }),
    foundNothingOn(events.reduce((sum, { snaps: after }) => sum + after, 0)),
  );
}
