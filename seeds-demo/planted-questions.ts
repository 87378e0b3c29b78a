import { NEXT_OPPONENT, OUR_PLAYER } from './league.js';
import { thirdAndLong, thirdAndSevenToTen } from './planted.js';
import { isThreeByOne, type Situation, type TruePlay } from './snap.js';

/** A planted tendency in words and as a question that a true snap answers, so that its share can be counted. */
export interface PlantedTendency {
  readonly who: string;
  readonly side: 'offense' | 'defense';
  readonly when: string;
  readonly what: string;
  readonly applies: (play: TruePlay) => boolean;
  readonly holds: (play: TruePlay) => boolean;
  /** Only these events count; all when left out. */
  readonly event?: number;
}

/** A call in the run of play, on which the question of a tendency makes sense. */
const has = (play: TruePlay, test: (situation: Situation) => boolean): boolean =>
  play.values.playType === 'scrimmage' &&
  play.situation !== null &&
  play.values.concept !== undefined &&
  test(play.situation);

/** The answer key. Shares are not written down here: they are counted over many games that nobody charted. */
export const PLANTED_TENDENCIES: readonly PlantedTendency[] = [
  {
    who: NEXT_OPPONENT,
    side: 'offense',
    when: '3rd and 7 to 10, three by one',
    what: 'four verticals or mesh',
    applies: (play) => has(play, thirdAndSevenToTen) && isThreeByOne(play.values.formation ?? ''),
    holds: ({ values }) => values.concept === 'four verticals' || values.concept === 'mesh',
  },
  {
    who: NEXT_OPPONENT,
    side: 'offense',
    when: '3rd and 7 to 10',
    what: 'lines up three by one',
    applies: (play) => has(play, thirdAndSevenToTen),
    holds: ({ values }) => isThreeByOne(values.formation ?? ''),
  },
  {
    who: NEXT_OPPONENT,
    side: 'offense',
    when: 'jet motion, strength not balanced',
    what: 'run to the strength',
    applies: (play) => has(play, () => play.values.motion === 'jet' && play.values.strength !== 'balanced'),
    holds: ({ values }) => values.called === 'run' && values.designedSide === values.strength,
  },
  {
    who: NEXT_OPPONENT,
    side: 'offense',
    when: '3rd and 7 or more, back moves out',
    what: 'shallow cross',
    applies: (play) => has(play, thirdAndLong) && play.values.motion === 'back out',
    holds: ({ values }) => values.concept === 'shallow cross',
  },
  {
    who: NEXT_OPPONENT,
    side: 'offense',
    when: 'a pass is called and five or more rush off the edge',
    what: 'success (40, 60, 100 % of the distance)',
    applies: (play) =>
      has(
        play,
        () =>
          play.values.called === 'pass' && (play.values.rushers ?? 0) >= 5 && play.values.pressurePath !== 'interior',
      ) && play.success !== undefined,
    holds: ({ success }) => success === true,
  },
  {
    who: NEXT_OPPONENT,
    side: 'offense',
    when: '4th and 1 to 4, 5 to 60 yards to the goal, quarters 1 to 3',
    what: 'goes for it',
    applies: ({ values }) =>
      values.down === 4 &&
      (values.distance ?? 99) <= 4 &&
      (values.quarter ?? 9) <= 3 &&
      (values.yardsToGoal ?? 0) >= 5 &&
      (values.yardsToGoal ?? 99) <= 60,
    holds: ({ values }) => values.playType === 'scrimmage',
  },
  {
    who: NEXT_OPPONENT,
    side: 'defense',
    when: 'shows two high',
    what: 'plays cover 3 (or a kind of it)',
    applies: (play) => has(play, () => play.values.shell === 'two high'),
    holds: ({ values }) => values.coverage?.startsWith('cover 3') === true,
  },
  {
    who: NEXT_OPPONENT,
    side: 'defense',
    when: '3rd and 7 to 10',
    what: 'starts the manual defender as slot defender and jumps the flat',
    applies: (play) => has(play, thirdAndSevenToTen),
    holds: ({ values }) =>
      values.manualDefenderStart === 'slot defender' && values.manualDefenderAction === 'jumps the flat',
  },
  {
    who: OUR_PLAYER,
    side: 'offense',
    when: 'pistol on 1st or 2nd down (self-scout)',
    what: 'outside zone',
    applies: (play) => has(play, ({ down }) => down < 3) && play.values.backfield?.startsWith('pistol') === true,
    holds: ({ values }) => values.concept === 'outside zone',
  },
  {
    who: OUR_PLAYER,
    side: 'offense',
    when: 'the snap after a sack, same drive (self-scout)',
    what: 'screen',
    applies: (play) => has(play, ({ before, down }) => before !== null && before.sacked && down < 4),
    holds: ({ values }) => values.callFamily === 'screen',
  },
  {
    who: 'tumblegate',
    side: 'offense',
    when: 'under center',
    what: 'run called',
    applies: (play) =>
      has(play, ({ pace }) => pace === 'normal') && play.values.backfield?.startsWith('under center') === true,
    holds: ({ values }) => values.called === 'run',
  },
  {
    who: 'PaperHeron',
    side: 'offense',
    when: 'first snap of a drive',
    what: 'play action',
    applies: (play) => has(play, ({ firstOfDrive, pace }) => firstOfDrive && pace === 'normal'),
    holds: ({ values }) => values.callFamily === 'play action',
  },
  {
    who: 'saltmarsh_9',
    side: 'offense',
    when: '1st or 2nd down, after a success on the same drive',
    what: 'the same concept again',
    applies: (play) =>
      has(play, ({ before, pace, down }) => before !== null && before.success && pace === 'normal' && down < 3),
    holds: ({ values, situation }) => values.concept === situation?.before?.concept,
  },
  {
    who: 'HollowReed77',
    side: 'defense',
    when: 'elimination games, 2nd to 4th down',
    what: 'five-man man pressure',
    applies: (play) => has(play, ({ importance, down }) => importance === 'elimination' && down >= 2),
    holds: ({ values }) => values.pressure === 'five-man man pressure',
  },
  {
    who: 'HollowReed77',
    side: 'defense',
    when: 'group games, 2nd to 4th down',
    what: 'five-man man pressure',
    applies: (play) => has(play, ({ importance, down }) => importance === 'group' && down >= 2),
    holds: ({ values }) => values.pressure === 'five-man man pressure',
  },
  {
    who: 'CopperDrizzle',
    side: 'defense',
    when: 'the offense sends a jet motion',
    what: 'changes the coverage before the snap',
    applies: (play) => has(play, () => play.values.motion === 'jet'),
    holds: ({ adjustments }) => adjustments.some(({ term }) => term === 'coverage changed'),
  },
  {
    who: 'wobblecrane',
    side: 'defense',
    when: 'shows a pressure',
    what: 'drops out of it (bluff)',
    applies: (play) => has(play, () => play.values.pressureShown?.startsWith('shown') === true),
    holds: ({ values }) => values.pressureShown === 'shown and dropped',
  },
  {
    who: 'rustlepine',
    side: 'offense',
    when: 'event 2, any scrimmage snap',
    what: 'empty backfield (before a change of habits, not of rules)',
    event: 2,
    applies: (play) => has(play, () => true),
    holds: ({ values }) => values.formation?.startsWith('empty') === true,
  },
  {
    who: 'rustlepine',
    side: 'offense',
    when: 'event 3, any scrimmage snap',
    what: 'empty backfield (after it)',
    event: 3,
    applies: (play) => has(play, () => true),
    holds: ({ values }) => values.formation?.startsWith('empty') === true,
  },
];
