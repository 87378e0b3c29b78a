import type { ShareEstimate } from '#domain/statistics/dirichlet-multinomial-posterior.js';
import type { Interval } from '#domain/statistics/interval.js';
import type { Counted, CountedShare } from '#domain/tendencies/decisions/counted-share.js';
import type { DimensionValue } from '#domain/tendencies/dimension-names.js';
import type { PointsAdded } from '#domain/tendencies/points-added.js';
import type { FieldShare, Results } from '#domain/tendencies/results-shape.js';
import type {
  CountedShareResponse,
  CountResponse,
  EstimateResponse,
  ExpectedPointsResponse,
  FieldShareResponse,
  IntervalResponse,
  ResultsResponse,
  ValueResponse,
} from './figures.dto.js';
import type { Plain } from './plain.js';

/** Shares to four places: a tenth of a tenth of a percent, far finer than any interval here. */
export function rounded(share: number): number {
  return Math.round(share * UNITS) / UNITS;
}

/** What `rounded` gives, as JSON: its whole part, and the rest off a list, since to print a fraction is slow. */
export function roundedText(value: number): string {
  const units = Math.round(value * UNITS);
  if (!Number.isSafeInteger(units)) return JSON.stringify(rounded(value));
  const size = Math.abs(units);
  const text = `${Math.floor(size / UNITS)}${REST_TEXTS[size % UNITS] ?? ''}`;
  return units < 0 ? `-${text}` : text;
}

const UNITS = 10_000;
/** From none to `.9999`. */
const REST_TEXTS = Array.from({ length: UNITS }, (_, rest) => String(rest / UNITS).slice(1));

/** Shares with what stands around them in an estimate: the fewer the pieces, the sooner they are put together. */
const SHARE_TEXTS = shareTexts('{"share":', ',"interval":{"lower":');
const LOWER_TEXTS = shareTexts('', ',"upper":');
const UPPER_TEXTS = shareTexts('', '}}');

function shareTexts(before: string, behind: string): readonly string[] {
  return Array.from({ length: UNITS + 1 }, (_, share) => `${before}${share / UNITS}${behind}`);
}

/** P-values to three figures, so that a very small one is still told from none. */
export function roundedP(pValue: number): number {
  return Number(pValue.toPrecision(3));
}

export function interval({ lower, upper }: Interval): IntervalResponse {
  return { lower: rounded(lower), upper: rounded(upper) };
}

export function estimate(share: ShareEstimate | null): EstimateResponse | null {
  return share === null ? null : { share: rounded(share.share), interval: interval(share.interval) };
}

/** What `estimate` gives, as JSON; of shares, all in [0, 1]. */
export function estimateText({ share, interval: { lower, upper } }: ShareEstimate): string {
  return textOf(SHARE_TEXTS, share) + textOf(LOWER_TEXTS, lower) + textOf(UPPER_TEXTS, upper);
}

function textOf(texts: readonly string[], share: number): string {
  const text = texts[Math.round(share * UNITS)];
  if (text === undefined) throw new RangeError(`${share} is no share`);
  return text;
}

export function fieldShare(field: FieldShare | null): FieldShareResponse | null {
  return field === null ? null : { ...field, share: rounded(field.share) };
}

export function count({ count: of, known }: Counted): CountResponse {
  return { count: of, known };
}

export function countedShare({ count: of, known, raw, field }: CountedShare): Plain<CountedShareResponse> {
  return { count: of, known, raw: estimate(raw), field: fieldShare(field) };
}

export function value({ label, termId }: DimensionValue): Plain<ValueResponse> {
  return { label, termId };
}

export function orNull<Part, Answer>(part: Part | null, shape: (part: Part) => Answer): Answer | null {
  return part === null ? null : shape(part);
}

export function results({ trials, successes, success, fieldSuccess, ...of }: Results): ResultsResponse {
  const { yards, explosive, pointsAdded } = of;
  return {
    trials,
    successes,
    success: estimate(success),
    fieldSuccess: fieldShare(fieldSuccess),
    yards: yards === null ? null : { plays: yards.plays, mean: rounded(yards.mean) },
    explosive: explosive === null ? null : { ...explosive, share: rounded(explosive.share) },
    expectedPointsAdded: expectedPoints(pointsAdded),
  };
}

/** What `results` gives, as JSON. */
export function resultsText({ trials, successes, ...of }: Results): string {
  const { success, fieldSuccess, yards, explosive, pointsAdded } = of;
  return (
    `{"trials":${trials},"successes":${successes},"success":${success === null ? 'null' : estimateText(success)}` +
    `,"fieldSuccess":${fieldSuccess === null ? 'null' : fieldShareText(fieldSuccess)}` +
    `,"yards":${yards === null ? 'null' : `{"plays":${yards.plays},"mean":${roundedText(yards.mean)}}`}` +
    `,"explosive":${explosive === null ? 'null' : explosiveText(explosive)}` +
    `,"expectedPointsAdded":${pointsAdded === null ? 'null' : pointsText(pointsAdded)}}`
  );
}

/** What `fieldShare` gives, as JSON. */
export function fieldShareText({ share, count: of, known }: FieldShare): string {
  return `{"share":${roundedText(share)},"count":${of},"known":${known}}`;
}

function explosiveText({ plays, count: of, share }: NonNullable<Results['explosive']>): string {
  return `{"plays":${plays},"count":${of},"share":${roundedText(share)}}`;
}

function pointsText({ plays, mean, interval: bounds }: PointsAdded): string {
  const told = bounds === null ? 'null' : `{"lower":${roundedText(bounds.lower)},"upper":${roundedText(bounds.upper)}}`;
  return `{"plays":${plays},"mean":${roundedText(mean)},"interval":${told}}`;
}

export function expectedPoints(of: PointsAdded | null): Plain<ExpectedPointsResponse> | null {
  return orNull(of, ({ plays, mean, interval: bounds }) => ({
    plays,
    mean: rounded(mean),
    interval: orNull(bounds, interval),
  }));
}
