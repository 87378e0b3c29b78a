import { alikeHabits } from '../testing/alike-league.js';
import type { HeldSource } from './habit-claims.js';
import { habitTopic } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { heldTopics } from './held-topics.js';

const { asked } = alikeHabits({ players: 2, games: 2, snaps: 4, plan: 40, planted: 0, seed: 1 }).offense;
const SOURCE = { side: 'offense', asked, games: null } as const;

/** Says in its note which of its shares stand; an empty list asks nothing. */
const topicOf =
  (pValues: readonly number[]) =>
  (source: HeldSource): HabitTopic =>
    habitTopic(
      source,
      'looks',
      pValues.length === 0 ? 'nothing asked' : source.standing(pValues).map(Number).join(''),
      [],
      'not found',
    );
const notes = (families: readonly (readonly number[])[]): string[] =>
  heldTopics(families.map((pValues) => ({ source: SOURCE, topic: topicOf(pValues) }))).map(({ note }) => note);

describe('topics that are held against the field together', () => {
  it('say nothing where each alone would say it by chance one time in twenty', () => {
    expect(notes([[0.03, 0.6], [0.04], [0.2], [0.5, 0.9]])).toEqual(['00', '0', '0', '00']);
  });

  it('say what stands of one at its part of the level, and of many as each would alone', () => {
    // One of four topics selected: shares are found at 0.05 / 4.
    expect(notes([[0.001, 0.02], [0.4], [0.7], [0.9]])).toEqual(['10', '0', '0', '0']);
    expect(notes([[0.001, 0.02], [0.001], [0.002], [0.003]])).toEqual(['11', '1', '1', '1']);
  });

  it('are not held against topics that ask nothing', () => {
    expect(notes([[0.03], [], []])).toEqual(['1', 'nothing asked', 'nothing asked']);
  });
});
