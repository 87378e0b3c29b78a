import { differenceOf, type Counted } from '#domain/tendencies/decisions/counted-share.js';
import type { DimensionProfile, Profile } from '#domain/tendencies/profile-shape.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import { interval, orNull } from '../../common/figures.js';
import type { DroppedValueResponse, EarlierShareResponse } from './profile.dto.js';

const NOTHING: Counted = { count: 0, known: 0 };

/** What the player did in the older half of the games, to be set beside what is done now. */
export class EarlierHalf {
  private readonly dimensions: ReadonlyMap<string, DimensionProfile>;

  constructor(readonly profile: Profile) {
    this.dimensions = new Map(
      profile.situations.flatMap(({ situation, dimensions }) =>
        dimensions.map((dimension) => [keyOf(situation, dimension.dimension), dimension]),
      ),
    );
  }

  share(situation: string, now: DimensionProfile, share: ValueShare): EarlierShareResponse {
    const then = this.counted(this.dimensions.get(keyOf(situation, now.dimension)), share.value.key);
    const difference = differenceOf({ count: share.count, known: now.known }, then, this.profile.confidence);
    return { count: then.count, known: then.known, difference: orNull(difference, interval) };
  }

  /** What was done then and is done no more. */
  dropped(situation: string, now: DimensionProfile): DroppedValueResponse[] {
    const then = this.dimensions.get(keyOf(situation, now.dimension));
    const listed = new Set(now.values.map(({ value }) => value.key));
    return (then?.values ?? [])
      .filter(({ value, count }) => count > 0 && !listed.has(value.key))
      .map(({ value, count }) => ({
        label: value.label,
        termId: value.termId,
        earlier: { count, known: then?.known ?? 0 },
      }));
  }

  private counted(then: DimensionProfile | undefined, key: string): Counted {
    if (then === undefined) return NOTHING;
    return { count: then.values.find(({ value }) => value.key === key)?.count ?? 0, known: then.known };
  }
}

function keyOf(situation: string, dimension: string): string {
  return `${dimension} in ${situation}`;
}
