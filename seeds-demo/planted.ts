import { NEXT_OPPONENT, OUR_PLAYER } from './league.js';
import { isThreeByOne, type DefenseCall, type Look, type OffenseCall, type Situation } from './snap.js';
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

export const thirdAndSevenToTen = ({ down, distance }: Situation): boolean =>
  down === 3 && distance >= 7 && distance <= 10;
export const thirdAndLong = ({ down, distance }: Situation): boolean => down === 3 && distance >= 7;
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
