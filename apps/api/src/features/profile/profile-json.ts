import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { ShareEstimate } from '#domain/statistics/dirichlet-multinomial-posterior.js';
import type { DimensionValue } from '#domain/tendencies/dimension-names.js';
import type { DimensionProfile, Profile, SituationProfile } from '#domain/tendencies/profile-shape.js';
import type { FieldShare } from '#domain/tendencies/results-shape.js';
import { ALL_SNAPS } from '#domain/tendencies/situation-keys.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import { profileWords } from '#domain/tendencies/words/profile-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { bytesOf } from '../../common/bytes-of.js';
import { estimateText, fieldShareText, resultsText } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type { EarlierHalf } from './earlier-half.js';
import type { EarlierHalfResponse, ProfileResponse } from './profile.dto.js';

/** What goes out beside the figures themselves. */
export interface ProfileExtras {
  /** The plays it was computed from where every share shall list its own. */
  readonly evidence: PlayColumns | null;
  readonly earlier: EarlierHalf | null;
  /** Null for no sentences. */
  readonly voice: Voice | null;
  /** As they were asked for. */
  readonly cues: readonly string[];
  /** Whether one situation alone was asked for: then all is told of its values, else of those of all snaps. */
  readonly onlySituation: boolean;
}

export type ProfileHead = Pick<ProfileResponse, 'playerId' | 'handle' | 'newestGame' | 'expectedPointsPlays'> & {
  readonly earlier?: EarlierHalfResponse;
};

/**
 * `ProfileResponse` as JSON. Written part by part: a profile has hundreds of shares, and to make objects of them for
 * `JSON.stringify` took as long as everything else together.
 */
export function profileJson(profile: Profile, head: ProfileHead, extras: ProfileExtras): Buffer {
  return bytesOf(partsOf(profile, head, extras));
}

/** Not within `profileJson`: a generator that is made anew at each call keeps all that it sees until the next full collection. */
function* partsOf(profile: Profile, head: ProfileHead, extras: ProfileExtras): Generator<string> {
  const { side, confidence, snaps, games, situations } = profile;
  yield `${JSON.stringify({ ...head, side, confidence, snaps, games }).slice(0, -1)},"situations":[`;
  for (const [place, situation] of situations.entries()) {
    yield (place === 0 ? '' : ',') + situationText(situation, extras);
  }
  yield ']}';
}

/** Of fewer plays a success rate says nothing; the plays themselves can be asked for. */
const FEWEST_RESULTS = 5;

function situationText(profile: SituationProfile, extras: ProfileExtras): string {
  const { situation, snaps, games, dimensions } = profile;
  let text = `{"situation":${JSON.stringify(situation)},"snaps":${snaps},"games":${games}`;
  text += `,"results":${resultsText(profile.results)},"dimensions":[`;
  // Added up, not joined: a join would copy what becomes bytes only afterwards.
  let between = '';
  for (const dimension of dimensions) {
    text += between + dimensionText(profile, dimension, extras);
    between = ',';
  }
  return `${text}]}`;
}

function dimensionText(situation: SituationProfile, profile: DimensionProfile, extras: ProfileExtras): string {
  const { dimension, label, known, values, visibility } = profile;
  const { earlier, evidence, voice } = extras;
  const isBrief = !tellsAll(situation, extras) && earlier === null && evidence === null && voice === null;
  let text = `{"dimension":"${dimension}","label":"${label}","known":${known}`;
  text += `,"visibility":${visibility === null ? 'null' : JSON.stringify(visibility)}`;
  if (earlier !== null) text += `,"dropped":${JSON.stringify(earlier.dropped(situation.situation, profile))}`;
  text += ',"values":[';
  let oneOffs = '';
  let written: ShareEstimate | null = null;
  let raw = '';
  for (const share of values) {
    if (isBrief && share.isOneOff) {
      oneOffs += `${oneOffs === '' ? '' : ','}${textsOf(share.value).whole}`;
      continue;
    }
    text += written === null ? '' : ',';
    // Values that were used equally often follow one another, with one raw share.
    if (share.raw !== written) raw = `,"raw":${estimateText((written = share.raw))},"shrunk":`;
    text += valueText(situation, profile, share, raw, extras);
  }
  return `${text}],"oneOffs":[${oneOffs}]}`;
}

function valueText(
  situation: SituationProfile,
  dimension: DimensionProfile,
  share: ValueShare,
  raw: string,
  extras: ProfileExtras,
): string {
  const { evidence, earlier, voice, cues } = extras;
  const { value, count, shrunk, field, conflict } = share;
  const outcome = tellsAll(situation, extras) ? share.results : null;
  let more = '';
  if (earlier !== null) more += `,"earlier":${JSON.stringify(earlier.share(situation.situation, dimension, share))}`;
  if (voice !== null) more += `,"words":${JSON.stringify(profileWords(situation, dimension, share, cues, voice))}`;
  if (evidence !== null) more += `,"plays":${JSON.stringify(playReferences(share.evidence, evidence))}`;
  // In few pieces, since each costs more than its bytes.
  return (
    textsOf(value).upToCount +
    count +
    raw +
    (shrunk === null ? 'null' : estimateText(shrunk)) +
    (field === null ? ',"field":null,"conflict":' : fieldText(field)) +
    (conflict ? 'true' : 'false') +
    (outcome === null || outcome.trials < FEWEST_RESULTS ? ',"results":null' : `,"results":${resultsText(outcome)}`) +
    (more === '' ? '}' : `${more}}`)
  );
}

/** Whether all that is known of each value is told. */
function tellsAll({ situation }: SituationProfile, { onlySituation }: ProfileExtras): boolean {
  return onlySituation || situation === ALL_SNAPS;
}

interface ValueTexts {
  readonly termId: number | null;
  /** `{"label":"mesh","termId":120}` */
  readonly whole: string;
  /** `{"label":"mesh","termId":120,"count":` */
  readonly upToCount: string;
}

/** The words of a vocabulary come back thousands of times. */
function textsOf({ label, termId }: DimensionValue): ValueTexts {
  const known = VALUE_TEXTS.get(label);
  if (known?.termId === termId) return known;
  if (VALUE_TEXTS.size >= MOST_VALUE_TEXTS) VALUE_TEXTS.clear();
  const whole = JSON.stringify({ label, termId });
  const texts = { termId, whole, upToCount: `${whole.slice(0, -1)},"count":` };
  VALUE_TEXTS.set(label, texts);
  return texts;
}

const VALUE_TEXTS = new Map<string, ValueTexts>();
const MOST_VALUE_TEXTS = 10_000;

/** `,"field":{...},"conflict":`. The field's shares are the same with every question about the same player. */
function fieldText(field: FieldShare): string {
  let text = FIELD_TEXTS.get(field);
  if (text === undefined) FIELD_TEXTS.set(field, (text = `,"field":${fieldShareText(field)},"conflict":`));
  return text;
}

const FIELD_TEXTS = new WeakMap<FieldShare, string>();
