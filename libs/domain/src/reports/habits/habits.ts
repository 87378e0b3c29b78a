import { seededRandom } from '../../statistics/seeded-random.js';
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
import type { HabitSource } from './habit-claims.js';
import type { ReportHabits } from './habits-shape.js';
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
  const { games, fieldVersions, situations, clock } = input;
  const order = playedOrder(games);
  const events = eventsOf(games);
  const sides = (['offense', 'defense'] as const).filter((side) => input[side].asked.facts.counts.includes(1));
  const of = (side: Side): HabitSource => ({ side, asked: input[side].asked });
  const whole = (side: Side): HabitSource => ({ side, asked: input[side].whole });
  return {
    givesAway: sides.flatMap((side) => [
      ...tellTopics(of(side)).toSpliced(1, 0, looksTopic(of(side))),
      ...(side === 'defense' ? [disguiseTopic(of(side)), manualDefenderTopic(of(side))] : []),
    ]),
    sequences: sides.flatMap((side) => [
      openersTopic(whole(side)),
      repeatsTopic(whole(side)),
      reactionsTopic(whole(side)),
      ...orderTopics(whole(side)),
      adjustmentTopic(of(side)),
      duelTopic(of(side)),
      pointOfAttackTopic(of(side)),
      ...(side === 'offense' ? [decisionTopic(of(side), situations), clockTopic(whole(side), clock)] : []),
      timeoutsTopic(whole(side), clock),
    ]),
    changed: sides.flatMap((side) => [
      driftTopic(of(side), order, random),
      withinGamesTopic(of(side), random),
      versionTopic(
        of(side),
        order,
        games.map(({ rulesVersion }) => rulesVersion),
        fieldVersions,
      ),
    ]),
    events,
    overEvents: sides.flatMap((side) => sharesOverEvents(of(side), games, events)),
  };
}

/** Places of the games of known date, the first played first. */
function playedOrder(games: readonly HabitGame[]): number[] {
  return games
    .flatMap(({ playedOn }, place) => (playedOn === null ? [] : [{ playedOn, place }]))
    .sort((a, b) => (a.playedOn < b.playedOn ? -1 : a.playedOn > b.playedOn ? 1 : b.place - a.place))
    .map(({ place }) => place);
}
