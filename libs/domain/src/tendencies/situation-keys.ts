/** Every counting play, whatever the situation. */
export const ALL_SNAPS = 'all snaps';
/** The first counting snap of each drive; it overlaps the other situations. */
export const DRIVE_START = 'first snap of a drive';

/** `all snaps`, `first snap of a drive`, or one of the batch's situation names. */
export type SituationKey = string;
