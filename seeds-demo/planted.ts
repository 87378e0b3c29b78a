import { NEXT_OPPONENT, OUR_PLAYER } from './league.js';
import { isThreeByOne, type DefenseCall, type Look, type OffenseCall, type Situation, type TruePlay } from './snap.js';
import type { Weights } from './randomness.js';

/** What a planted habit makes of the look, the call or the defense, with the given share, when it applies. */
interface LookPlant {
  readonly when: (situation: Situation) => boolean;
  readonly share: number;
  readonly then: Partial<Pick<Look, 'formation' | 'motion' | 'motionBy'>>;
}

export interface PlantedCall {
  readonly called: OffenseCall['called'];
  readonly callFamily: string;
  readonly concept: string;
  readonly toStrength?: boolean;
}

interface CallPlant {
  readonly when: (situation: Situation, look: Look) => boolean;
  readonly share: number;
  /** One of these, each as often as the others. */
  readonly then: (situation: Situation) => readonly PlantedCall[];
}

interface DefensePlant {
  readonly when: (situation: Situation, look: Look) => boolean;
  readonly share: number;
  readonly then: Partial<DefenseCall>;
}

export interface Plants {
  readonly looks: readonly LookPlant[];
  readonly calls: readonly CallPlant[];
  readonly defenses: readonly DefensePlant[];
  readonly motions?: Weights;
  readonly goForIt?: number;
  readonly bluffShare?: number;
  /** Change of the chance to be pressured, and of half as much of the chance to complete, against edge pressure. */
  readonly hurtByEdge?: number;
  /** How often the coverage is changed after a jet motion. */
  readonly changesCoverageOnJet?: number;
}

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

/** The call that spreads: since which event each player has it. */
export const SPREADING_CALL = 'counter read';
export const ADOPTED_IN: Readonly<Record<string, number>> = {
  tumblegate: 1,
  OtterParade: 1,
  FoxgloveFive: 1,
  [NEXT_OPPONENT]: 2,
  PaperHeron: 2,
  brackenroll: 2,
  saltmarsh_9: 2,
  TinKettle: 2,
  rustlepine: 3,
  wobblecrane: 3,
  gustwhistle: 3,
  plumbline_q: 3,
  quietharrow: 3,
  HollowReed77: 3,
};

/** The answer that holds it, and who has found it. */
export const HOLDING_ANSWER = { front: 'three down tight', coverage: 'cover 3 sky', pressure: 'four-man rush' };
export const HAS_THE_ANSWER = ['SundialRook', 'drowsypiston', 'lanternfish_k'];

const thirdAndSevenToTen = ({ down, distance }: Situation): boolean => down === 3 && distance >= 7 && distance <= 10;
const thirdAndLong = ({ down, distance }: Situation): boolean => down === 3 && distance >= 7;
const earlyDown = ({ down, distance, pace }: Situation): boolean => pace === 'normal' && down < 3 && distance > 2;
const fromGunOrPistol = ({ backfield }: Look): boolean =>
  backfield.startsWith('shotgun back') || backfield.startsWith('pistol');
const isUnderCenter = ({ backfield }: Look): boolean => backfield.startsWith('under center');

/** What the plants of one player do to the snaps. */
export function plantsOf(handle: string): Plants {
  const own = OWN_PLANTS[handle] ?? NOTHING;
  const adopted = ADOPTED_IN[handle];
  return {
    ...own,
    calls: adopted === undefined ? own.calls : [...own.calls, spreadingCall(adopted)],
    defenses: HAS_THE_ANSWER.includes(handle) ? [...own.defenses, THE_ANSWER] : own.defenses,
  };
}

function spreadingCall(adoptedIn: number): CallPlant {
  return {
    when: (situation, look) => situation.event >= adoptedIn && earlyDown(situation) && fromGunOrPistol(look),
    share: 0.24,
    then: () => [{ called: 'run', callFamily: 'option', concept: SPREADING_CALL }],
  };
}

const THE_ANSWER: DefensePlant = {
  when: (situation, look) => situation.event >= 2 && earlyDown(situation) && fromGunOrPistol(look),
  share: 0.6,
  then: { ...HOLDING_ANSWER, rushers: 4, shell: 'one high rotated strong', alignment: ['safety down strong'] },
};

const NOTHING: Plants = { looks: [], calls: [], defenses: [] };

const OWN_PLANTS: Readonly<Record<string, Plants>> = {
  [NEXT_OPPONENT]: {
    looks: [
      { when: thirdAndLong, share: 0.3, then: { motion: 'back out', motionBy: 'back' } },
      { when: thirdAndSevenToTen, share: 0.6, then: { formation: 'three by one wide' } },
    ],
    calls: [
      {
        when: (situation, { motion }) => thirdAndLong(situation) && motion === 'back out',
        share: 0.65,
        then: () => [{ called: 'pass', callFamily: 'dropback pass', concept: 'shallow cross' }],
      },
      {
        when: (situation, { formation }) => thirdAndSevenToTen(situation) && isThreeByOne(formation),
        share: 0.75,
        then: () => [
          { called: 'pass', callFamily: 'dropback pass', concept: 'four verticals' },
          { called: 'pass', callFamily: 'dropback pass', concept: 'mesh' },
        ],
      },
      {
        when: (situation, { motion, strength }) => motion === 'jet' && strength !== 'balanced' && situation.down < 4,
        share: 0.75,
        then: () => [
          { called: 'run', callFamily: 'run', concept: 'outside zone', toStrength: true },
          { called: 'run', callFamily: 'run', concept: 'pin and pull', toStrength: true },
          { called: 'run', callFamily: 'run', concept: 'jet sweep', toStrength: true },
        ],
      },
    ],
    defenses: [
      {
        when: thirdAndSevenToTen,
        share: 0.55,
        then: { manualStart: 'slot defender', manualAction: 'jumps the flat', shell: 'two high', coverage: 'cover 3' },
      },
      { when: ({ pace }) => pace === 'normal', share: 0.34, then: { shell: 'two high', coverage: 'cover 3' } },
    ],
    motions: { jet: 0.18 },
    goForIt: 1.2,
    hurtByEdge: 0.34,
  },
  [OUR_PLAYER]: {
    looks: [],
    calls: [
      {
        when: (situation, { backfield }) => backfield.startsWith('pistol') && situation.down < 3,
        share: 0.6,
        then: () => [{ called: 'run', callFamily: 'run', concept: 'outside zone', toStrength: true }],
      },
      {
        when: ({ before, down }) => before !== null && before.sacked && down < 4,
        share: 0.5,
        then: () => [{ called: 'pass', callFamily: 'screen', concept: 'running back screen' }],
      },
    ],
    defenses: [],
  },
  tumblegate: {
    looks: [],
    calls: [
      {
        when: ({ pace }, look) => pace === 'normal' && isUnderCenter(look),
        share: 0.8,
        then: () => [
          { called: 'run', callFamily: 'run', concept: 'power' },
          { called: 'run', callFamily: 'run', concept: 'duo' },
          { called: 'run', callFamily: 'run', concept: 'outside zone' },
        ],
      },
    ],
    defenses: [],
  },
  PaperHeron: {
    looks: [],
    calls: [
      {
        when: ({ firstOfDrive, pace }, { formation }) =>
          firstOfDrive && pace === 'normal' && !formation.startsWith('empty'),
        share: 0.5,
        then: () => [
          { called: 'pass', callFamily: 'play action', concept: 'post and cross' },
          { called: 'pass', callFamily: 'play action', concept: 'deep cross' },
        ],
      },
    ],
    defenses: [],
  },
  saltmarsh_9: {
    looks: [],
    calls: [
      {
        when: ({ before, pace, down }) => before !== null && before.success && pace === 'normal' && down < 3,
        share: 0.45,
        then: ({ before }) =>
          before === null
            ? []
            : [{ called: calledFor(before.callFamily), callFamily: before.callFamily, concept: before.concept }],
      },
    ],
    defenses: [],
  },
  HollowReed77: {
    looks: [],
    calls: [],
    defenses: [
      {
        when: ({ importance, down, pace }) => importance === 'elimination' && down >= 2 && pace === 'normal',
        share: 0.36,
        then: { pressure: 'five-man man pressure', rushers: 5, coverage: 'cover 1', shell: 'one high' },
      },
    ],
  },
  CopperDrizzle: { ...NOTHING, changesCoverageOnJet: 0.7 },
  wobblecrane: { ...NOTHING, bluffShare: 0.65 },
  rustlepine: {
    looks: [
      {
        when: ({ event, yardsToGoal, distance }) => event === 3 && yardsToGoal > 5 && distance > 2,
        share: 0.35,
        then: { formation: 'empty three by two', motion: 'none' },
      },
    ],
    calls: [],
    defenses: [],
  },
};

function calledFor(callFamily: string): OffenseCall['called'] {
  if (callFamily === 'run-pass option') return undefined;
  return ['run', 'option', 'draw', 'designed quarterback run'].includes(callFamily) ? 'run' : 'pass';
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
