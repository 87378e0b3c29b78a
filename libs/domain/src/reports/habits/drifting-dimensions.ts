import type { DimensionName } from '../../tendencies/dimension-names.js';
import type { Side } from '../../tendencies/tendency-plays.js';

/** What may drift. */
export const DRIFTING = {
  offense: ['called', 'callFamily', 'concept', 'formation', 'motion', 'direction', 'tempo', 'offensivePersonnel'],
  defense: ['shell', 'coverageFamily', 'coverage', 'front', 'pressure', 'manualDefenderAction'],
} as const satisfies Record<Side, readonly DimensionName[]>;
