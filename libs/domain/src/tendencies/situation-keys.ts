/** Every counting play, whatever the situation. */
export const ALL_SNAPS = 'all snaps';

/** `all snaps`, or one of the batch's situation names. */
export type SituationKey = string;
