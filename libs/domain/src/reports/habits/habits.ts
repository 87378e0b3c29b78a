import { seededRandom } from '../../statistics/seeded-random.js';
import type { MenuCall } from '../../answers/options.js';
import type { SituationSettings } from '../../football/situations.js';
import type { AskedPlays } from '../../tendencies/decisions/asked-plays.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import type { DecisionSettings } from '../../tendencies/decisions/decisions.js';
import { adjustmentTopic } from './adjustment-topic.js';
import { driftTopic, withinGamesTopic } from './change-topics.js';
import { clockTopic, timeoutsTopic } from './clock-topics.js';
import { decisionTopic } from './decision-topic.js';
import { disguiseTopic } from './disguise-topic.js';
import { duelTopic } from './duel-topic.js';
import type { HabitSource, HeldSource } from './habit-claims.js';
import type { HabitTopic, HabitTopicName, ReportHabits } from './habits-shape.js';
import { heldTopics, type HeldTopic } from './held-topics.js';
import { likenessOfGames } from './likeness-of-games.js';
import { looksTopic } from './looks-topic.js';
import { manualDefenderTopic } from './manual-defender-topic.js';
import { orderTopics } from './order-topic.js';
import { pointOfAttackTopic } from './point-of-attack-topic.js';
import { openersTopic, reactionsTopic, repeatsTopic } from './sequence-topics.js';
import { eventsOf, sharesOverEvents, type HabitGame } from './shares-over-events.js';
import { tellTopics } from './tell-topics.js';
import { versionTopic } from './version-topic.js';

/** One side of the player's plays. */
export interface HabitSide {
  readonly asked: AskedPlays;
  /** The same of games whose charts looked at every snap, for what follows what. */
  readonly whole: AskedPlays;
}

export interface HabitsInput {
  readonly offense: HabitSide;
  readonly defense: HabitSide;
  /** Of each chart of `asked`, by place. */
  readonly games: readonly HabitGame[];
  /** Rules of each chart of the field, by place. */
  readonly fieldVersions: readonly (string | null)[];
  readonly situations: SituationSettings;
  /** The situation by clock and score of the player's plays and of the field's. */
  readonly clock: DecisionSettings['clock'];
  /** Our installed calls, for what the defender controlled by hand leaves open. */
  readonly menu: readonly MenuCall[];
}

/**
 * The habits that a report speaks of: what says something, in plain sentences with counts and plays; a topic without
 * anything to say says why. A side without a counting snap has no topics.
 *
 * @param seed - of the permutations behind what changed
 * @throws DomainError as the functions that are asked do
 */
export function reportHabits(input: HabitsInput, seed: number): ReportHabits {
  const random = seededRandom(seed);
  const { games, fieldVersions, situations, clock, menu } = input;
  const order = playedOrder(games);
  const events = eventsOf(games);
  const sides = (['offense', 'defense'] as const).filter((side) => input[side].asked.facts.counts.includes(1));
  const source = (side: Side, asked: AskedPlays): HabitSource => ({
    ...{ side, asked, games: likenessOfGames(side, asked) },
  });
  const sources = sides.map((side) => ({
    side,
    of: source(side, input[side].asked),
    whole: source(side, input[side].whole),
  }));
  const held = heldTopics(
    sources.flatMap(({ side, of, whole }): HeldTopic[] => [
      { source: of, topic: looksTopic },
      ...(side === 'defense'
        ? [
            { source: of, topic: disguiseTopic },
            { source: of, topic: (asked: HeldSource) => manualDefenderTopic(asked, menu) },
          ]
        : []),
      { source: whole, topic: openersTopic },
      { source: whole, topic: reactionsTopic },
      { source: of, topic: duelTopic },
      { source: of, topic: pointOfAttackTopic },
      ...(side === 'offense'
        ? [
            { source: of, topic: (asked: HeldSource) => decisionTopic(asked, situations) },
            { source: whole, topic: (asked: HeldSource) => clockTopic(asked, clock) },
          ]
        : []),
      { source: whole, topic: (asked: HeldSource) => timeoutsTopic(asked, clock) },
    ]),
  );
  const heldOf = (side: Side, ...names: HabitTopicName[]): HabitTopic[] =>
    names.flatMap((name) => held.filter((one) => one.side === side && one.topic === name));
  return {
    givesAway: sources.flatMap(({ side, of }) => {
      const looks = heldOf(side, 'looks');
      const shown = looks.flatMap(({ claims }) => claims).filter(({ status }) => status === 'established');
      const tells = tellTopics(of, new Set(shown.map(({ label }) => label)));
      return [...tells.toSpliced(1, 0, ...looks), ...heldOf(side, 'disguise', 'manualDefender')];
    }),
    sequences: sources.flatMap(({ side, of, whole }) => [
      ...heldOf(side, 'openers'),
      repeatsTopic(whole),
      ...heldOf(side, 'reactions'),
      ...orderTopics(whole),
      adjustmentTopic(of),
      ...heldOf(side, 'duel', 'pointOfAttack', 'decisions', 'clock', 'timeouts'),
    ]),
    changed: sources.flatMap(({ of }) => [
      driftTopic(of, order, random),
      withinGamesTopic(of, random),
      versionTopic(
        of,
        order,
        games.map(({ rulesVersion }) => rulesVersion),
        fieldVersions,
      ),
    ]),
    events,
    overEvents: sources.flatMap(({ of }) => sharesOverEvents(of, games, events)),
  };
}

/** Places of the games of known date, the first played first. */
function playedOrder(games: readonly HabitGame[]): number[] {
  return games
    .flatMap(({ playedOn }, place) => (playedOn === null ? [] : [{ playedOn, place }]))
    .sort((a, b) => (a.playedOn < b.playedOn ? -1 : a.playedOn > b.playedOn ? 1 : b.place - a.place))
    .map(({ place }) => place);
}
