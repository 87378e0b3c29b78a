import type { PlayFieldName } from '../charting/play-fields.js';
import type { Side } from './tendency-plays.js';

/** What situations, what counts, success, explosive plays and expected points are told by. */
const CLASSIFIED_BY = [
  'playType',
  'quarter',
  'drive',
  'down',
  'distance',
  'yardsToGoal',
  'called',
  'callFamily',
  'concept',
  'runPassOption',
  'snapResult',
  'ledTo',
  'yardsGained',
  'foulSide',
  'foul',
  'foulAnswer',
  'foulTiming',
  'replayed',
] as const satisfies readonly PlayFieldName[];

/** What the dimensions of a side are read from. */
const READ_BY: Readonly<Record<Side, readonly PlayFieldName[]>> = {
  offense: [
    'callFamily',
    'concept',
    'formation',
    'backfield',
    'motion',
    'strength',
    'designedSide',
    'targetDepth',
    'tempo',
    'offensivePersonnel',
  ],
  defense: ['front', 'shell', 'coverage', 'rushers', 'pressure', 'manualDefenderAction', 'boxCount'],
};

/** Fields to gather for the field's model of one side. */
export const FIELD_MODEL_FIELDS: Readonly<Record<Side, readonly PlayFieldName[]>> = {
  offense: [...new Set([...CLASSIFIED_BY, ...READ_BY.offense])],
  defense: [...new Set([...CLASSIFIED_BY, ...READ_BY.defense])],
};
