import { betaCdf } from '../statistics/distributions.js';
import { assertOpenUnit } from '../statistics/guards.js';
import type { DimensionProfile, Profile, SituationProfile } from './profile-shape.js';
import type { ValueShare } from './value-share.js';

/** A share that stands off the field. */
export interface NotableShare {
  readonly situation: SituationProfile;
  readonly dimension: DimensionProfile;
  readonly share: ValueShare;
  readonly direction: 'more' | 'less';
  /** Posterior probability that the share is off the field's by more than the margin, in that direction. */
  readonly certainty: number;
  /** Whether the certainty reaches what was asked for; below it the share is a lead, unproven. */
  readonly established: boolean;
  /** How probable so many plays, or so few, would be of somebody who is off the field by the margin and no more. */
  readonly chance: number;
}

export interface NotableSettings {
  /** How far off the field a share must be to matter, in (0, 1). */
  readonly margin: number;
  /** Certainty from which a share counts as established, in (0, 1). */
  readonly certainty: number;
}

/** Five points change no plan; nine in ten is the confidence of the intervals. Common practice, no source. */
export const DEFAULT_NOTABLE: NotableSettings = { margin: 0.05, certainty: 0.9 };

/** The field's own share must be known this well before anybody is held against it. */
const FEWEST_FIELD_PLAYS = 30;
/** Below even odds a share is not even a lead. */
const LEAST_CERTAINTY = 0.5;

/**
 * Shares by how far they stand from the field, given what is not known. A share is judged by its posterior: many cells
 * are looked at, and shrinkage is what keeps the lucky ones among them down, provided that the prior was fitted to the
 * field's players. Of two values that make up a dimension only the one used more often than in the field is listed,
 * since the other says the same.
 *
 * @param profile  - of any player
 * @param settings - margin and certainty
 * @returns the established first, most certain first; then the leads, those first whose plays chance explains least: a
 *   prior that was learned where players are alike holds back the one situation in which somebody is not. Certainties are
 *   at least one half
 * @throws DomainError `stats.invalid_probability`
 * @see Efron (2010), Large-Scale Inference, chapter 5 (posterior odds need no further correction); Stephens (2017),
 *   Biostatistics 18, 275–294 (the sign, not the point null, is what is in question)
 */
export function notableShares({ situations }: Profile, settings: NotableSettings): NotableShare[] {
  assertOpenUnit('margin', settings.margin);
  assertOpenUnit('certainty', settings.certainty);
  const found: NotableShare[] = [];
  for (const situation of situations) {
    for (const dimension of situation.dimensions) {
      for (const share of dimension.values) {
        const notable = judged(situation, dimension, share, settings);
        if (notable !== null) found.push(notable);
      }
    }
  }
  return found.sort((a, b) => {
    if (a.established !== b.established) return a.established ? -1 : 1;
    const order = a.established ? b.certainty - a.certainty : a.chance - b.chance;
    return order !== 0 ? order : distance(b) - distance(a);
  });
}

function judged(
  situation: SituationProfile,
  dimension: DimensionProfile,
  share: ValueShare,
  { margin, certainty: needed }: NotableSettings,
): NotableShare | null {
  const { field, raw } = share;
  if (field === null || field.known < FEWEST_FIELD_PLAYS) return null;
  const direction = raw.share >= field.share ? 'more' : 'less';
  if (direction === 'less' && dimension.values.length === 2) return null;
  // The posterior lies between the raw share and the field's: without this much raw distance it cannot be certain.
  if (Math.abs(raw.share - field.share) <= margin) return null;
  const { posterior } = share;
  if (posterior === null) return null;
  const certainty =
    direction === 'more'
      ? 1 - posterior.probabilityBelow(field.share + margin)
      : posterior.probabilityBelow(field.share - margin);
  if (certainty < LEAST_CERTAINTY) return null;
  const away = direction === 'more' ? field.share + margin : field.share - margin;
  const chance = tailOf(direction, share.count, dimension.known, away);
  return { situation, dimension, share, direction, certainty, established: certainty >= needed, chance };
}

/** Probability of at least, or at most, so many of the plays at a share; the binomial's tail as a Beta's. */
function tailOf(direction: 'more' | 'less', count: number, known: number, share: number): number {
  if (direction === 'more') return count === 0 ? 1 : betaCdf(share, count, known - count + 1);
  return count === known ? 1 : 1 - betaCdf(share, count + 1, known - count);
}

function distance({ share }: NotableShare): number {
  return Math.abs((share.shrunk?.share ?? share.raw.share) - (share.field?.share ?? 0));
}
