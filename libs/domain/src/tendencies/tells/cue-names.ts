import type { Side } from '../tendency-plays.js';

/** What is visible before the snap, by the side that is scouted. The order is the order of a report. */
export const CUE_NAMES = {
  offense: [
    'formation',
    'strength',
    'motion',
    'motionBy',
    'backfield',
    'tempo',
    'hash',
    'offensivePersonnel',
    'lineUpWait',
  ],
  defense: [
    'shell',
    'front',
    'boxCount',
    'cushion',
    'linemen',
    'linebackers',
    'secondLevelUp',
    'slotDefender',
    'safeties',
    'leverage',
    'manualDefenderStart',
    'defensivePersonnel',
    'lineUpWait',
  ],
} as const satisfies Record<Side, readonly string[]>;

export type OffenseCue = (typeof CUE_NAMES.offense)[number];
export type DefenseCue = (typeof CUE_NAMES.defense)[number];
export type CueName = OffenseCue | DefenseCue;

/** From when a cue can be acted on: with a call from the huddle, or with a check at the line. */
export type CueStage = 'huddle' | 'line';

/**
 * What the chart says about when a cue can first be seen. The offense stands as it stands from its line-up on; people,
 * hash and tempo show earlier; when somebody moves, or when the defense takes its place, no field says.
 */
export type FirstSeen = 'at line-up' | 'before line-up' | 'not charted';

export interface CueFacts {
  readonly label: string;
  readonly stage: CueStage;
  readonly firstSeen: FirstSeen;
}

export const CUE_FACTS: Readonly<Record<CueName, CueFacts>> = {
  formation: { label: 'formation', stage: 'line', firstSeen: 'at line-up' },
  strength: { label: 'strength', stage: 'line', firstSeen: 'at line-up' },
  motion: { label: 'motion', stage: 'line', firstSeen: 'not charted' },
  motionBy: { label: 'motion by', stage: 'line', firstSeen: 'not charted' },
  backfield: { label: 'backfield', stage: 'line', firstSeen: 'at line-up' },
  tempo: { label: 'tempo', stage: 'huddle', firstSeen: 'before line-up' },
  hash: { label: 'hash', stage: 'huddle', firstSeen: 'before line-up' },
  offensivePersonnel: { label: 'personnel', stage: 'huddle', firstSeen: 'before line-up' },
  lineUpWait: { label: 'wait at the line', stage: 'line', firstSeen: 'not charted' },
  shell: { label: 'shell shown', stage: 'line', firstSeen: 'not charted' },
  front: { label: 'front', stage: 'line', firstSeen: 'not charted' },
  boxCount: { label: 'box', stage: 'line', firstSeen: 'not charted' },
  cushion: { label: 'cushion of the corners', stage: 'line', firstSeen: 'not charted' },
  linemen: { label: 'defensive line', stage: 'line', firstSeen: 'not charted' },
  linebackers: { label: 'linebackers', stage: 'line', firstSeen: 'not charted' },
  secondLevelUp: { label: 'second level at the line', stage: 'line', firstSeen: 'not charted' },
  slotDefender: { label: 'slot defender', stage: 'line', firstSeen: 'not charted' },
  safeties: { label: 'safeties', stage: 'line', firstSeen: 'not charted' },
  leverage: { label: 'leverage of the corners', stage: 'line', firstSeen: 'not charted' },
  manualDefenderStart: { label: 'start of the manually controlled defender', stage: 'line', firstSeen: 'not charted' },
  defensivePersonnel: { label: 'personnel', stage: 'huddle', firstSeen: 'before line-up' },
};

/**
 * Pairs of cues that are looked at together, since the second changes what the first means. A fixed short list: every
 * further pair costs power for all others. Common trade practice, no source.
 */
export const CUE_PAIRS = {
  offense: [
    ['formation', 'strength'],
    ['formation', 'motion'],
    ['formation', 'backfield'],
    ['formation', 'offensivePersonnel'],
    ['formation', 'hash'],
    ['formation', 'tempo'],
    ['backfield', 'strength'],
    ['backfield', 'motion'],
    ['motion', 'motionBy'],
  ],
  defense: [
    ['shell', 'front'],
    ['shell', 'boxCount'],
    ['shell', 'cushion'],
    ['shell', 'safeties'],
    ['shell', 'manualDefenderStart'],
    ['front', 'boxCount'],
  ],
} as const satisfies Record<Side, readonly (readonly [CueName, CueName])[]>;
