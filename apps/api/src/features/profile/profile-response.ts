import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { DimensionProfile, Profile, SituationProfile } from '#domain/tendencies/profile-shape.js';
import { ALL_SNAPS } from '#domain/tendencies/situation-keys.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import { profileWords } from '#domain/tendencies/words/profile-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import type { ResultsResponse } from '../../common/figures.dto.js';
import { estimate, fieldShare, results } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type { EarlierHalf } from './earlier-half.js';
import type {
  DimensionResponse,
  EarlierHalfResponse,
  ProfileResponse,
  SituationResponse,
  ValueShareResponse,
} from './profile.dto.js';

/** What goes out beside the figures themselves. */
export interface ProfileExtras {
  /** The plays it was computed from where every share shall list its own. */
  readonly evidence: PlayColumns | null;
  readonly earlier: EarlierHalf | null;
  /** Null for no sentences. */
  readonly voice: Voice | null;
  /** As they were asked for. */
  readonly cues: readonly string[];
  /** Whether one situation alone was asked for: then its values say what came of them, else those of all snaps do. */
  readonly onlySituation: boolean;
}

export type ProfileHead = Pick<ProfileResponse, 'playerId' | 'handle' | 'newestGame' | 'expectedPointsPlays'> & {
  readonly earlier?: EarlierHalfResponse;
};

/** A profile as it goes out, but for its situations, which are shaped one by one as JSON is made of them. */
export type UnshapedProfile = Omit<ProfileResponse, 'situations'> & {
  readonly situations: readonly { toJSON(): SituationResponse }[];
};

/** All situations of a profile at once are megabytes of small objects, which the collector of garbage would carry about. */
export function profileResponse(profile: Profile, head: ProfileHead, extras: ProfileExtras): UnshapedProfile {
  const { side, confidence, snaps, games, situations } = profile;
  return {
    ...head,
    side,
    confidence,
    snaps,
    games,
    situations: situations.map((situation) => ({ toJSON: () => situationResponse(situation, extras) })),
  };
}

/** Of fewer plays a success rate says nothing; the plays themselves can be asked for. */
const FEWEST_RESULTS = 5;

function situationResponse(profile: SituationProfile, extras: ProfileExtras): SituationResponse {
  const { situation, snaps, games, dimensions } = profile;
  return {
    situation,
    snaps,
    games,
    results: results(profile.results),
    dimensions: dimensions.map((dimension) => dimensionResponse(profile, dimension, extras)),
  };
}

function dimensionResponse(
  situation: SituationProfile,
  profile: DimensionProfile,
  extras: ProfileExtras,
): DimensionResponse {
  const { dimension, label, known, values, visibility } = profile;
  const { earlier } = extras;
  return {
    dimension,
    label,
    known,
    visibility,
    values: values.map((value) => valueResponse(situation, profile, value, extras)),
    ...(earlier === null ? {} : { dropped: earlier.dropped(situation.situation, profile) }),
  };
}

function valueResponse(
  situation: SituationProfile,
  dimension: DimensionProfile,
  share: ValueShare,
  { evidence, earlier, voice, cues, onlySituation }: ProfileExtras,
): ValueShareResponse {
  const withResults = onlySituation || situation.situation === ALL_SNAPS;
  const { value, count, raw, shrunk, field, conflict } = share;
  return {
    label: value.label,
    termId: value.termId,
    count,
    raw: estimate(raw) ?? raw,
    shrunk: estimate(shrunk),
    field: fieldShare(field),
    conflict,
    results: withResults ? valueResults(share) : null,
    ...(earlier === null ? {} : { earlier: earlier.share(situation.situation, dimension, share) }),
    ...(voice === null ? {} : { words: profileWords(situation, dimension, share, cues, voice) }),
    ...(evidence === null ? {} : { plays: playReferences(share.evidence, evidence) }),
  };
}

function valueResults(share: ValueShare): ResultsResponse | null {
  return share.results.trials < FEWEST_RESULTS ? null : results(share.results);
}
