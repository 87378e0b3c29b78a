import { cohenKappa, type CohenKappa } from '../statistics/cohen-kappa.js';
import { elementAt } from '../statistics/element-at.js';
import type { ChartedPlay, PlayValue } from './play-columns.js';
import { PLAY_FIELDS, type PlayField, type PlayFieldName } from './play-fields.js';
import type { ChartOfGame } from './reconcile.js';
import { alignPlays } from './reconcile-align.js';
import { holdsTerms } from './reconcile-plays.js';
import { coveredFields, coversPlay } from './reconcile-scope.js';

/** Who has the ball is no field of the catalogue, but two charters may differ on it as on any other. */
export type AgreementField = PlayFieldName | 'offense';

export type NoKappa =
  /** Both always say the same one thing, which chance alone would give too. */
  | 'one value'
  /** Nearly every play has a value of its own, as seconds of a film have. */
  | 'too many values';

export interface FieldAgreement {
  readonly field: AgreementField;
  /** Plays on which both charts cover the field and say something. */
  readonly plays: number;
  readonly same: number;
  /** Null where it says nothing, for the reason beside it. */
  readonly kappa: CohenKappa | null;
  readonly noKappa: NoKappa | null;
}

export interface FieldDifference {
  readonly field: AgreementField;
  /** As charted; for the offense 1 is the home player. */
  readonly first: PlayValue;
  readonly second: PlayValue;
}

/** One snap on which the charts differ. */
export interface DifferingPlay {
  readonly orderInGame: number;
  readonly firstPlayNumber: number;
  readonly secondPlayNumber: number;
  readonly fields: readonly FieldDifference[];
}

export interface ChartAgreement {
  /** Snaps that both charts have. */
  readonly plays: number;
  /** Numbers of plays that the other chart, whose scope covers them, has not. */
  readonly onlyInFirst: readonly number[];
  readonly onlyInSecond: readonly number[];
  /** In the order of the catalogue, the offense first; fields that no play of both knows are left out. */
  readonly fields: readonly FieldAgreement[];
  /** In the order of the game. */
  readonly differing: readonly DifferingPlay[];
}

interface ComparedField {
  readonly field: AgreementField;
  /** What values are compared by: unordered lists sorted, terms as what they count as. */
  readonly keyOf: (value: PlayValue) => string;
  /** The value as a number where distances between values mean something. */
  readonly ordered: boolean;
}

type Compared = readonly [first: PlayValue, second: PlayValue];

/** A table of more values than this takes minutes, and says nothing that its count of equal ones does not. */
const MOST_VALUES = 128;

/**
 * How far two charts of one game agree, field by field, on the snaps that both have and where both say something.
 * Which plays are the same snap is `alignPlays`' business. Codes are compared as they are (nominal kappa), numbers by their
 * distance, so that a yard's difference weighs less than ten (weighted kappa, disagreement proportional to the
 * difference). Of lists only pre-snap adjustments have an order.
 *
 * @param canonical  - term id -> id that it counts as
 * @param confidence - probability in (0, 1) of the kappas' intervals
 * @throws DomainError `stats.invalid_probability`
 * @see Cohen (1960), Educ. Psychol. Meas. 20, 37-46; Cohen (1968), Psychol. Bull. 70, 213-220
 */
export function chartAgreement(
  first: ChartOfGame,
  second: ChartOfGame,
  canonical: (termId: number) => number,
  confidence: number,
): ChartAgreement {
  const firstPlays = playsInScope(first);
  const secondPlays = playsInScope(second);
  const pairs = alignPlays(
    { plays: firstPlays, scopes: [first.filmScope] },
    { plays: secondPlays, scopes: [second.filmScope] },
  ).map(([one, other]): readonly [ChartedPlay, ChartedPlay] => [
    elementAt(firstPlays, one),
    elementAt(secondPlays, other),
  ]);
  const compared = comparedFields(first, second, canonical);
  const paired = new Set(pairs.flat());
  const missing = (plays: readonly ChartedPlay[], other: ChartOfGame): readonly number[] =>
    plays.filter((play) => !paired.has(play) && coversPlay(other.filmScope, play)).map((play) => play.playNumber);
  return {
    plays: pairs.length,
    onlyInFirst: missing(firstPlays, second),
    onlyInSecond: missing(secondPlays, first),
    fields: compared.flatMap(({ field, valueOf }) => {
      const known = pairs.flatMap(([one, other]): Compared[] => {
        const values: Compared = [valueOf(one), valueOf(other)];
        return values.includes(null) ? [] : [values];
      });
      return known.length === 0 ? [] : [agreementOf(field, known, confidence)];
    }),
    differing: pairs.flatMap(([one, other]) => {
      const fields = compared.flatMap(({ field, valueOf }): FieldDifference[] => {
        const [a, b] = [valueOf(one), valueOf(other)];
        const differ = a !== null && b !== null && field.keyOf(a) !== field.keyOf(b);
        return differ ? [{ field: field.field, first: a, second: b }] : [];
      });
      if (fields.length === 0) return [];
      const { orderInGame, playNumber } = one;
      return [{ orderInGame, firstPlayNumber: playNumber, secondPlayNumber: other.playNumber, fields }];
    }),
  };
}

function playsInScope({ plays, filmScope }: ChartOfGame): readonly ChartedPlay[] {
  return [...plays]
    .sort((one, other) => one.orderInGame - other.orderInGame)
    .filter((play) => coversPlay(filmScope, play));
}

interface ReadField {
  readonly field: ComparedField;
  readonly valueOf: (play: ChartedPlay) => PlayValue;
}

function comparedFields(
  first: ChartOfGame,
  second: ChartOfGame,
  canonical: (termId: number) => number,
): readonly ReadField[] {
  const inFirst = coveredFields(first.filmScope);
  const inSecond = coveredFields(second.filmScope);
  const offense: ReadField = {
    field: { field: 'offense', keyOf: String, ordered: false },
    valueOf: (play) => (play.offenseIsHome ? 1 : 0),
  };
  const fields = PLAY_FIELDS.flatMap((field, place): ReadField[] => {
    if (inFirst[place] !== true || inSecond[place] !== true) return [];
    const compared = { field: field.name, keyOf: keyReader(field, canonical), ordered: field.type === 'number' };
    return [{ field: compared, valueOf: (play) => play.values[place] ?? null }];
  });
  return [offense, ...fields];
}

function keyReader(field: PlayField, canonical: (termId: number) => number): (value: PlayValue) => string {
  const counted = holdsTerms(field) ? canonical : (code: number): number => code;
  const hasOrder = field.name === 'preSnapAdjustments';
  return (value) => {
    if (value === null || typeof value === 'number') return value === null ? '' : String(counted(value));
    const ids = value.map(counted);
    return (hasOrder ? ids : ids.sort((one, other) => one - other)).join(' ');
  };
}

function agreementOf(
  { field, keyOf, ordered }: ComparedField,
  known: readonly Compared[],
  confidence: number,
): FieldAgreement {
  const keys = known.map(([one, other]) => [keyOf(one), keyOf(other)] as const);
  const same = keys.filter(([one, other]) => one === other).length;
  const values = [...new Set(keys.flat())].sort((one, other) => (ordered ? Number(one) - Number(other) : 0));
  const counted = { field, plays: known.length, same };
  if (values.length < 2) return { ...counted, kappa: null, noKappa: 'one value' };
  if (values.length > MOST_VALUES) return { ...counted, kappa: null, noKappa: 'too many values' };
  const places = new Map(values.map((value, place) => [value, place]));
  const table = values.map(() => new Array<number>(values.length).fill(0));
  for (const [one, other] of keys) {
    const row = elementAt(table, places.get(one) ?? 0);
    const column = places.get(other) ?? 0;
    row[column] = (row[column] ?? 0) + 1;
  }
  const weights = ordered
    ? values.map((row) => values.map((column) => Math.abs(Number(row) - Number(column))))
    : 'nominal';
  return { ...counted, kappa: cohenKappa(table, weights, confidence), noKappa: null };
}
