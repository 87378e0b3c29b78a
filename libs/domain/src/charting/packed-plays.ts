import { DomainError } from '../domain-error.js';
import {
  columnsFromPlays,
  PlayColumns,
  UNKNOWN_NUMBER,
  type ChartedPlay,
  type ChartKey,
  type Column,
  type NumberColumn,
} from './play-columns.js';
import { playField, type PlayFieldName } from './play-fields.js';
import { playsOfColumns } from './reconcile-plays.js';

/** Raised whenever the layout below changes; a copy of another format is rebuilt from the rows. */
export const PACK_FORMAT = 1;

const MAGIC = 0x52_42; // "RB"
const FIXED_BYTES = 12; // magic, format, plays, header length
const BYTE_UNKNOWN = -128;

/** How a column's bytes are to be read. */
type Encoding = 'number8' | 'number16' | 'code8' | 'code16' | 'list';
/** Field, encoding, bytes, and what its codes stand for. */
type HeaderEntry = readonly [name: string, encoding: Encoding, bytes: number, meanings: readonly number[]];

/**
 * The packed copy of a chart: its columns as bytes, one byte a value wherever the values fit, both sides of the ball.
 * Layout: magic, format, count of plays and length of the header (fixed); the header as JSON naming each column that
 * holds anything; play numbers, orders in the game (two bytes each) and who has the ball (one byte); then the columns.
 * Little-endian. Term ids are stored as charted, before any reader's vocabulary is applied.
 *
 * @param plays - columns of exactly one chart
 * @returns bytes that `unpackPlays` turns back into equal columns
 */
export function packPlays(plays: PlayColumns): Uint8Array {
  const header: HeaderEntry[] = [];
  const bodies: Uint8Array[] = [
    bytesOf(Uint16Array.from(plays.playNumber)),
    bytesOf(Uint16Array.from(plays.orderInGame)),
    plays.offenseIsHome,
  ];
  for (const [name, column] of plays.columns) {
    const { encoding, body, meanings } = encode(column);
    header.push([name, encoding, body.byteLength, meanings]);
    bodies.push(body);
  }
  const headerBytes = new TextEncoder().encode(JSON.stringify(header));
  const total = FIXED_BYTES + headerBytes.length + bodies.reduce((sum, body) => sum + body.byteLength, 0);
  const pack = new Uint8Array(total);
  const view = new DataView(pack.buffer);
  view.setUint16(0, MAGIC);
  view.setUint16(2, PACK_FORMAT, true);
  view.setUint32(4, plays.count, true);
  view.setUint32(8, headerBytes.length, true);
  pack.set(headerBytes, FIXED_BYTES);
  let at = FIXED_BYTES + headerBytes.length;
  for (const body of bodies) {
    pack.set(body, at);
    at += body.byteLength;
  }
  return pack;
}

/**
 * The columns of a packed chart. A field that the catalogue no longer has is left out.
 *
 * @throws DomainError `pack.unreadable` when the bytes are not a pack of this format
 */
export function unpackPlays(pack: Uint8Array, chart: ChartKey): PlayColumns {
  const view = new DataView(pack.buffer, pack.byteOffset, pack.byteLength);
  if (pack.byteLength < FIXED_BYTES || view.getUint16(0) !== MAGIC || view.getUint16(2, true) !== PACK_FORMAT) {
    throw new DomainError('pack.unreadable', `not a pack of format ${PACK_FORMAT}`);
  }
  const count = view.getUint32(4, true);
  const headerLength = view.getUint32(8, true);
  const header = readHeader(pack.subarray(FIXED_BYTES, FIXED_BYTES + headerLength));
  let at = FIXED_BYTES + headerLength;
  const take = (bytes: number): Uint8Array => {
    if (at + bytes > pack.byteLength) throw new DomainError('pack.unreadable', 'the pack ends early');
    // A copy, since a view of two-byte numbers must start at an even address; slice() of a Buffer would be a view.
    const body = new Uint8Array(pack.subarray(at, at + bytes));
    at += bytes;
    return body;
  };
  const playNumber = new Uint16Array(take(count * 2).buffer);
  const orderInGame = new Uint16Array(take(count * 2).buffer);
  const offenseIsHome = take(count);
  const columns = new Map<PlayFieldName, Column>();
  for (const [name, encoding, bytes, meanings] of header) {
    const body = take(bytes);
    const field = playField(name);
    if (field !== undefined) columns.set(field.name, decode(encoding, body, meanings, count));
  }
  return new PlayColumns({
    charts: [chart],
    chartIndex: new Int32Array(count),
    playNumber,
    orderInGame,
    offenseIsHome,
    columns,
  });
}

/**
 * The packed copy with one play more, the same bytes as of all its plays packed anew: a chart that grows play by play
 * need not read its rows again for every one.
 *
 * @throws DomainError `pack.unreadable` when the bytes are not a pack of this format
 */
export function packWithPlay(pack: Uint8Array, chart: ChartKey, play: ChartedPlay): Uint8Array {
  const plays = [...playsOfColumns(unpackPlays(pack, chart)), play];
  plays.sort((a, b) => a.orderInGame - b.orderInGame || a.playNumber - b.playNumber);
  return packPlays(columnsFromPlays(chart, plays));
}

function encode(column: Column): { encoding: Encoding; body: Uint8Array; meanings: readonly number[] } {
  if ('values' in column) return { ...encodeNumbers(column), meanings: [] };
  if (!('starts' in column)) {
    const encoding = column.codes instanceof Int8Array ? 'code8' : 'code16';
    return { encoding, body: bytesOf(column.codes), meanings: column.meanings };
  }
  // A list is its length and then its codes; the length of an unknown list is one more than a byte's largest code.
  const bytes: number[] = [];
  for (let play = 0; play + 1 < column.starts.length; play += 1) {
    const from = column.starts[play] ?? 0;
    const to = column.starts[play + 1] ?? 0;
    bytes.push(column.known[play] === 1 ? to - from : LIST_UNKNOWN, ...column.codes.subarray(from, to));
  }
  return { encoding: 'list', body: Uint8Array.from(bytes), meanings: column.meanings };
}

const LIST_UNKNOWN = 255;

function encodeNumbers(column: NumberColumn): { encoding: Encoding; body: Uint8Array } {
  const fitsByte = column.values.every((value) => value === UNKNOWN_NUMBER || (value > BYTE_UNKNOWN && value <= 127));
  if (!fitsByte) return { encoding: 'number16', body: bytesOf(column.values) };
  const bytes = Int8Array.from(column.values, (value) => (value === UNKNOWN_NUMBER ? BYTE_UNKNOWN : value));
  return { encoding: 'number8', body: bytesOf(bytes) };
}

function decode(encoding: Encoding, body: Uint8Array, meanings: readonly number[], count: number): Column {
  switch (encoding) {
    case 'number16':
      return { values: new Int16Array(body.buffer) };
    case 'number8': {
      const bytes = new Int8Array(body.buffer);
      return { values: Int16Array.from(bytes, (value) => (value === BYTE_UNKNOWN ? UNKNOWN_NUMBER : value)) };
    }
    case 'code8':
      return { codes: new Int8Array(body.buffer), meanings };
    case 'code16':
      return { codes: new Int16Array(body.buffer), meanings };
    case 'list': {
      const starts = new Int32Array(count + 1);
      const known = new Uint8Array(count);
      const codes: number[] = [];
      let at = 0;
      for (let play = 0; play < count; play += 1) {
        const length = body[at++] ?? LIST_UNKNOWN;
        if (length !== LIST_UNKNOWN) {
          known[play] = 1;
          for (let i = 0; i < length; i += 1) codes.push(body[at++] ?? 0);
        }
        starts[play + 1] = codes.length;
      }
      return { starts, known, codes: Int16Array.from(codes), meanings };
    }
  }
}

function bytesOf(array: Int8Array | Int16Array | Uint8Array | Uint16Array): Uint8Array {
  return new Uint8Array(array.buffer, array.byteOffset, array.byteLength);
}

const ENCODINGS: ReadonlySet<string> = new Set<Encoding>(['number8', 'number16', 'code8', 'code16', 'list']);

function readHeader(bytes: Uint8Array): readonly HeaderEntry[] {
  let header: unknown;
  try {
    header = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    throw new DomainError('pack.unreadable', 'the header is no JSON');
  }
  if (!Array.isArray(header) || !header.every(isHeaderEntry)) {
    throw new DomainError('pack.unreadable', 'the header does not list columns');
  }
  return header;
}

function isHeaderEntry(entry: unknown): entry is HeaderEntry {
  if (!Array.isArray(entry) || entry.length !== 4) return false;
  const [name, encoding, bytes, meanings] = entry as unknown[];
  return (
    typeof name === 'string' &&
    typeof encoding === 'string' &&
    ENCODINGS.has(encoding) &&
    typeof bytes === 'number' &&
    Array.isArray(meanings)
  );
}
