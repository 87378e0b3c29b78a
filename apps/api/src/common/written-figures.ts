import type { ShareEstimate } from '#domain/statistics/dirichlet-multinomial-posterior.js';
import type { Interval } from '#domain/statistics/interval.js';
import type { PointsAdded } from '#domain/tendencies/points-added.js';
import type { FieldShare, Results } from '#domain/tendencies/results-shape.js';
import { piece, type ByteWriter } from './byte-writer.js';

/*
 * The figures of `figures.ts` as JSON, for an answer that has so many of them that to make objects of each would take as
 * long as to compute them.
 */

const NULL = piece('null');
const END = piece('}');

// As long as they can be, since each is a call.
const SHARE = piece('{"share":');
const AROUND = piece(',"interval":{"lower":');
const UPPER = piece(',"upper":');
const END_AROUND = piece('}}');
const COUNT = piece(',"count":');
const KNOWN = piece(',"known":');
const PLAYS = piece('{"plays":');
const MEAN = piece(',"mean":');
const NOT_AROUND = piece(',"interval":null}');

const TRIALS = piece('{"trials":');
const SUCCESSES = piece(',"successes":');
const SUCCESS = piece(',"success":');
const FIELD_SUCCESS = piece(',"fieldSuccess":');
const YARDS = piece(',"yards":');
const EXPLOSIVE = piece(',"explosive":');
const SHARE_OF_PLAYS = piece(',"share":');
const POINTS = piece(',"expectedPointsAdded":');

/** What `estimate` gives. */
export function writeEstimate(to: ByteWriter, estimate: ShareEstimate | null): void {
  if (estimate === null) {
    to.put(NULL);
    return;
  }
  to.put(SHARE);
  to.decimal(estimate.share);
  writeAround(to, estimate.interval);
}

/** What `fieldShare` gives. */
export function writeFieldShare(to: ByteWriter, field: FieldShare | null): void {
  if (field === null) {
    to.put(NULL);
    return;
  }
  to.put(SHARE);
  to.decimal(field.share);
  to.put(COUNT);
  to.whole(field.count);
  to.put(KNOWN);
  to.whole(field.known);
  to.put(END);
}

/** What `results` gives. */
export function writeResults(to: ByteWriter, results: Results): void {
  to.put(TRIALS);
  to.whole(results.trials);
  to.put(SUCCESSES);
  to.whole(results.successes);
  to.put(SUCCESS);
  writeEstimate(to, results.success);
  to.put(FIELD_SUCCESS);
  writeFieldShare(to, results.fieldSuccess);
  to.put(YARDS);
  writeYards(to, results.yards);
  to.put(EXPLOSIVE);
  writeExplosive(to, results.explosive);
  to.put(POINTS);
  writePoints(to, results.pointsAdded);
  to.put(END);
}

/** The interval, and the end of what it is around. */
function writeAround(to: ByteWriter, { lower, upper }: Interval): void {
  to.put(AROUND);
  to.decimal(lower);
  to.put(UPPER);
  to.decimal(upper);
  to.put(END_AROUND);
}

function writeYards(to: ByteWriter, yards: Results['yards']): void {
  if (yards === null) {
    to.put(NULL);
    return;
  }
  to.put(PLAYS);
  to.whole(yards.plays);
  to.put(MEAN);
  to.decimal(yards.mean);
  to.put(END);
}

function writeExplosive(to: ByteWriter, explosive: Results['explosive']): void {
  if (explosive === null) {
    to.put(NULL);
    return;
  }
  to.put(PLAYS);
  to.whole(explosive.plays);
  to.put(COUNT);
  to.whole(explosive.count);
  to.put(SHARE_OF_PLAYS);
  to.decimal(explosive.share);
  to.put(END);
}

function writePoints(to: ByteWriter, points: PointsAdded | null): void {
  if (points === null) {
    to.put(NULL);
    return;
  }
  to.put(PLAYS);
  to.whole(points.plays);
  to.put(MEAN);
  to.decimal(points.mean);
  if (points.interval === null) to.put(NOT_AROUND);
  else writeAround(to, points.interval);
}
