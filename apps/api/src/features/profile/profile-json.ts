import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { DimensionName, DimensionValue } from '#domain/tendencies/dimension-names.js';
import type { DimensionProfile, Profile, SituationProfile } from '#domain/tendencies/profile-shape.js';
import type { FieldShare } from '#domain/tendencies/results-shape.js';
import { ALL_SNAPS } from '#domain/tendencies/situation-keys.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import { profileWords } from '#domain/tendencies/words/profile-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { ByteWriter, piece } from '../../common/byte-writer.js';
import { fieldShare } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import { writeEstimate, writeResults } from '../../common/written-figures.js';
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
  /** Whether what was done once in a situation is only named, where nothing else is asked of the shares. */
  readonly oneOffs: 'named' | 'shares';
}

export type ProfileHead = Pick<ProfileResponse, 'playerId' | 'handle' | 'newestGame' | 'expectedPointsPlays'> & {
  readonly earlier?: EarlierHalfResponse;
};

const SITUATIONS = piece(',"situations":[');
const SITUATION = piece('{"situation":');
const SNAPS = piece(',"snaps":');
const GAMES = piece(',"games":');
const RESULTS = piece(',"results":');
const DIMENSIONS = piece(',"dimensions":[');
const NOT_VISIBLE_VALUES = piece(',"visibility":null,"values":[');
const VISIBILITY = piece(',"visibility":');
const DROPPED = piece(',"dropped":');
const VALUES = piece(',"values":[');
const ONE_OFFS = piece('],"oneOffs":[');
const RAW = piece(',"raw":');
const SHRUNK = piece(',"shrunk":');
const CONFLICT = piece('true,"results":');
const NO_CONFLICT = piece('false,"results":');
const NO_FIELD = piece(',"field":null,"conflict":');
const NOTHING = piece('null');
const EARLIER = piece(',"earlier":');
const WORDS = piece(',"words":');
const EVIDENCE = piece(',"plays":');
const END = piece('}');
const END_OF_LIST = piece(']}');

/** `ProfileResponse` as JSON: a profile has hundreds of shares, and most of an answer's time went into objects of them. */
export function profileJson(profile: Profile, head: ProfileHead, extras: ProfileExtras): Buffer {
  const { side, confidence, snaps, games, situations } = profile;
  const to = new ByteWriter();
  to.text(JSON.stringify({ ...head, side, confidence, snaps, games }).slice(0, -1));
  to.put(SITUATIONS);
  to.list(situations, (situation) => {
    writeSituation(to, situation, extras);
  });
  to.put(END_OF_LIST);
  return to.finished();
}

/** Of fewer plays a success rate says nothing; the plays themselves can be asked for. */
const FEWEST_RESULTS = 5;

function writeSituation(to: ByteWriter, profile: SituationProfile, extras: ProfileExtras): void {
  to.put(SITUATION);
  to.text(JSON.stringify(profile.situation));
  to.put(SNAPS);
  to.whole(profile.snaps);
  to.put(GAMES);
  to.whole(profile.games);
  to.put(RESULTS);
  writeResults(to, profile.results);
  to.put(DIMENSIONS);
  to.list(profile.dimensions, (dimension) => {
    writeDimension(to, profile, dimension, extras);
  });
  to.put(END_OF_LIST);
}

function writeDimension(
  to: ByteWriter,
  situation: SituationProfile,
  profile: DimensionProfile,
  extras: ProfileExtras,
): void {
  const { values, visibility } = profile;
  const { earlier, evidence, voice } = extras;
  to.put(headOf(profile));
  to.whole(profile.known);
  if (visibility === null && earlier === null) to.put(NOT_VISIBLE_VALUES);
  else {
    to.put(VISIBILITY);
    to.text(JSON.stringify(visibility));
    if (earlier !== null) {
      to.put(DROPPED);
      to.text(JSON.stringify(earlier.dropped(situation.situation, profile)));
    }
    to.put(VALUES);
  }
  const asksMore = extras.oneOffs === 'shares' || earlier !== null || evidence !== null || voice !== null;
  const namesOneOffs = !asksMore && !tellsAll(situation, extras);
  const oneOffs = namesOneOffs ? values.filter(({ isOneOff }) => isOneOff) : [];
  const told = oneOffs.length === 0 ? values : values.filter(({ isOneOff }) => !isOneOff);
  to.list(told, (share) => {
    writeShare(to, situation, profile, share, extras);
  });
  to.put(ONE_OFFS);
  to.list(oneOffs, ({ value }) => {
    to.put(piecesOf(value).whole);
  });
  to.put(END_OF_LIST);
}

function writeShare(
  to: ByteWriter,
  situation: SituationProfile,
  dimension: DimensionProfile,
  share: ValueShare,
  extras: ProfileExtras,
): void {
  const { evidence, earlier, voice, cues } = extras;
  const { field } = share;
  to.put(piecesOf(share.value).upToCount);
  to.whole(share.count);
  to.put(RAW);
  writeEstimate(to, share.raw);
  to.put(SHRUNK);
  writeEstimate(to, share.shrunk);
  to.put(field === null ? NO_FIELD : fieldPiece(field));
  to.put(share.conflict ? CONFLICT : NO_CONFLICT);
  const outcome = tellsAll(situation, extras) ? share.results : null;
  if (outcome === null || outcome.trials < FEWEST_RESULTS) to.put(NOTHING);
  else writeResults(to, outcome);
  if (earlier !== null) {
    to.put(EARLIER);
    to.text(JSON.stringify(earlier.share(situation.situation, dimension, share)));
  }
  if (voice !== null) {
    to.put(WORDS);
    to.text(JSON.stringify(profileWords(situation, dimension, share, cues, voice)));
  }
  if (evidence !== null) {
    to.put(EVIDENCE);
    to.text(JSON.stringify(playReferences(share.evidence, evidence)));
  }
  to.put(END);
}

/** Whether all that is known of each value is told. */
function tellsAll({ situation }: SituationProfile, { onlySituation }: ProfileExtras): boolean {
  return onlySituation || situation === ALL_SNAPS;
}

/** `{"dimension":"coverage","label":"coverage","known":` */
function headOf({ dimension, label }: DimensionProfile): Uint8Array {
  let head = HEADS.get(dimension);
  if (head === undefined) {
    head = piece(`${JSON.stringify({ dimension, label }).slice(0, -1)},"known":`);
    HEADS.set(dimension, head);
  }
  return head;
}

const HEADS = new Map<DimensionName, Uint8Array>();

interface ValuePieces {
  readonly label: string;
  /** `{"label":"mesh","termId":120}` */
  readonly whole: Uint8Array;
  /** `{"label":"mesh","termId":120,"count":` */
  readonly upToCount: Uint8Array;
}

/** The words of a vocabulary come back thousands of times. */
function piecesOf({ key, label, termId }: DimensionValue): ValuePieces {
  const known = VALUE_PIECES.get(key);
  if (known?.label === label) return known;
  if (VALUE_PIECES.size >= MOST_VALUE_PIECES) VALUE_PIECES.clear();
  const text = JSON.stringify({ label, termId });
  const pieces = { label, whole: piece(text), upToCount: piece(`${text.slice(0, -1)},"count":`) };
  VALUE_PIECES.set(key, pieces);
  return pieces;
}

const VALUE_PIECES = new Map<string, ValuePieces>();
const MOST_VALUE_PIECES = 10_000;

/** `,"field":{...},"conflict":`. The field's shares are the same with every question about the same player. */
function fieldPiece(field: FieldShare): Uint8Array {
  let bytes = FIELD_PIECES.get(field);
  if (bytes === undefined) {
    bytes = piece(`,"field":${JSON.stringify(fieldShare(field))},"conflict":`);
    FIELD_PIECES.set(field, bytes);
  }
  return bytes;
}

const FIELD_PIECES = new WeakMap<FieldShare, Uint8Array>();
