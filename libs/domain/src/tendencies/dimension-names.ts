import type { Side } from './tendency-plays.js';

/** What shares are computed of, by side. The order is the order of a profile. */
export const DIMENSION_NAMES = {
  offense: [
    'called',
    'callFamily',
    'concept',
    'formation',
    'backfield',
    'motion',
    'direction',
    'targetDepth',
    'tempo',
    'offensivePersonnel',
  ],
  defense: ['front', 'shell', 'coverage', 'coverageFamily', 'pressure', 'rushers', 'manualDefenderAction', 'boxCount'],
} as const satisfies Record<Side, readonly string[]>;

export type OffenseDimension = (typeof DIMENSION_NAMES.offense)[number];
export type DefenseDimension = (typeof DIMENSION_NAMES.defense)[number];
export type DimensionName = OffenseDimension | DefenseDimension;

export const DIMENSION_LABELS: Readonly<Record<DimensionName, string>> = {
  called: 'run or pass called',
  callFamily: 'call family',
  concept: 'concept',
  formation: 'formation',
  backfield: 'backfield',
  motion: 'motion',
  direction: 'direction against strength',
  targetDepth: 'target depth',
  tempo: 'tempo',
  offensivePersonnel: 'personnel',
  front: 'front',
  shell: 'shell shown',
  coverage: 'coverage played',
  coverageFamily: 'coverage family',
  pressure: 'four or five and more rush',
  rushers: 'rushers',
  manualDefenderAction: 'manually controlled defender',
  boxCount: 'box',
};

/** One thing that a player can do in a dimension. */
export interface DimensionValue {
  /** The same in every batch: `term:70` for a term, else the words themselves. */
  readonly key: string;
  /** The vocabulary's term, or null for a fixed word or a derived value. */
  readonly termId: number | null;
  /** For a person to read, in the reader's vocabulary. */
  readonly label: string;
}
