/**
 * The catalogue of everything that can be charted about one snap, in the order in which it becomes known. It is the one
 * place that says which fields exist: the columns, the packed copies, the import, the table `play` and the API's
 * documents are all derived from it or checked against it.
 */

/** Kinds of controlled terms; each term of the vocabulary has exactly one. */
export const TERM_KINDS = [
  'formation',
  'backfield',
  'motion',
  'offensivePersonnel',
  'defensivePersonnel',
  'callFamily',
  'concept',
  'runPassOptionTag',
  'gap',
  'targetDepth',
  'targetZone',
  'role',
  'front',
  'alignmentAdjustment',
  'shell',
  'coverage',
  'pressure',
  'pressurePath',
  'pressureSide',
  'pressureSource',
  'manualDefenderAction',
  'preSnapAdjustment',
  'tempo',
  'snapResult',
  'ledTo',
  'foul',
] as const;
export type TermKind = (typeof TERM_KINDS)[number];

/** When a field becomes known. A forecast or an answer may only use stages before its own. */
export type KnownAt = 'huddle' | 'line' | 'snap' | 'after';

interface FieldBase {
  readonly name: string;
  readonly knownAt: KnownAt;
  /** What the field says, for the documentation of the API and of the import. */
  readonly meaning: string;
}

/** A whole number, with its inclusive range. */
export interface NumberField extends FieldBase {
  readonly type: 'number';
  readonly minimum: number;
  readonly maximum: number;
}

/** One of a few fixed words. Unlike terms these cannot be extended by a clan, since computation depends on them. */
export interface ChoiceField extends FieldBase {
  readonly type: 'choice';
  readonly choices: readonly string[];
}

/** A controlled term of one kind. */
export interface TermField extends FieldBase {
  readonly type: 'term';
  readonly kind: TermKind;
}

/** Several controlled terms of one kind, in the order in which they were seen. */
export interface TermListField extends FieldBase {
  readonly type: 'terms';
  readonly kind: TermKind;
}

export type PlayField = NumberField | ChoiceField | TermField | TermListField;

/** Yes and no as a choice, so that a flag is packed, counted and filtered like every other field. */
export const FLAG = ['no', 'yes'] as const;

export const PLAY_TYPES = [
  'scrimmage',
  'kneel',
  'spike',
  'punt',
  'field goal',
  'kickoff',
  'free kick',
  'try kick',
  'two-point try',
] as const;
export type PlayType = (typeof PLAY_TYPES)[number];

export const OFF_DESIGN = [
  'no',
  'forced by a set edge',
  'forced by penetration',
  'forced by an unblocked rusher',
  'passer flushed',
  'forced, cause unseen',
  'read by design',
] as const;

function number<const Name extends string>(
  name: Name,
  knownAt: KnownAt,
  minimum: number,
  maximum: number,
  meaning: string,
): NumberField & { readonly name: Name } {
  return { type: 'number', name, knownAt, minimum, maximum, meaning };
}

function choice<const Name extends string>(
  name: Name,
  knownAt: KnownAt,
  choices: readonly string[],
  meaning: string,
): ChoiceField & { readonly name: Name } {
  return { type: 'choice', name, knownAt, choices, meaning };
}

function term<const Name extends string>(
  name: Name,
  knownAt: KnownAt,
  kind: TermKind,
  meaning: string,
): TermField & { readonly name: Name } {
  return { type: 'term', name, knownAt, kind, meaning };
}

function terms<const Name extends string>(
  name: Name,
  knownAt: KnownAt,
  kind: TermKind,
  meaning: string,
): TermListField & { readonly name: Name } {
  return { type: 'terms', name, knownAt, kind, meaning };
}

const SIDES = ['left', 'middle', 'right'] as const;

export const PLAY_FIELDS = [
  // Situation
  choice('playType', 'huddle', PLAY_TYPES, 'what kind of play this is; required'),
  number('quarter', 'huddle', 1, 12, 'quarter; overtime periods count on from 5'),
  number('clockSeconds', 'huddle', 0, 900, 'seconds left in the quarter when the ball is snapped'),
  choice('clockRunning', 'huddle', FLAG, 'whether the clock ran before the snap'),
  number('offenseTimeouts', 'huddle', 0, 3, 'timeouts left to the offense'),
  number('defenseTimeouts', 'huddle', 0, 3, 'timeouts left to the defense'),
  number('scoreDifference', 'huddle', -127, 127, "points of the offense less the defense's, before the snap"),
  number('down', 'huddle', 1, 4, 'down; empty on kickoffs, free kicks and tries'),
  number('distance', 'huddle', 1, 99, 'yards to the line to gain'),
  number('yardsToGoal', 'huddle', 1, 99, "yards from the ball to the defense's goal line"),
  choice('hash', 'huddle', SIDES, 'lateral spot of the ball, seen from the offense'),
  number('drive', 'huddle', 1, 99, 'number of the drive within the game'),
  // Before the snap, in the order in which it is seen
  term('tempo', 'huddle', 'tempo', 'how the offense came to the line'),
  term('offensivePersonnel', 'huddle', 'offensivePersonnel', 'people on offense'),
  term('defensivePersonnel', 'huddle', 'defensivePersonnel', 'people on defense'),
  term('formation', 'line', 'formation', 'where the eligible receivers stand'),
  choice('strength', 'line', ['left', 'right', 'balanced'], 'side of the passing strength'),
  term('backfield', 'line', 'backfield', 'where quarterback and backs stand'),
  term('motion', 'line', 'motion', 'what moved before the snap'),
  choice('motionBy', 'line', ['outside', 'slot', 'tight end', 'back', 'quarterback'], 'who moved'),
  term('front', 'line', 'front', 'look of the defensive line at the snap'),
  terms('alignmentAdjustments', 'line', 'alignmentAdjustment', 'adjustments of the defensive alignment'),
  term('shell', 'line', 'shell', 'deep shell shown before the snap'),
  number('boxCount', 'line', 0, 11, 'defenders in the box'),
  terms('preSnapAdjustments', 'line', 'preSnapAdjustment', 'the duel: adjustments by either side, in order'),
  term('manualDefenderStart', 'line', 'pressureSource', 'role of the manually controlled defender at the snap'),
  number('lineUpSecond', 'line', 0, 32_000, 'second of the video at which the offense is lined up'),
  number('snapSecond', 'snap', 0, 32_000, 'second of the video at which the ball is snapped'),
  // The call
  choice('called', 'snap', ['run', 'pass'], 'run or pass called; a sack or a scramble is a called pass'),
  term('callFamily', 'snap', 'callFamily', 'family of the call'),
  choice('playFake', 'snap', FLAG, 'whether the run was faked'),
  choice('runPassOption', 'snap', FLAG, 'whether run and pass were both called'),
  choice('runPassOptionBranch', 'after', ['give', 'keep', 'throw'], 'how the run-pass option was decided'),
  term('runPassOptionTag', 'snap', 'runPassOptionTag', 'the throw that was attached to the run'),
  term('concept', 'snap', 'concept', 'concept of the call'),
  term('designedGap', 'snap', 'gap', 'gap the run was meant for'),
  choice('designedSide', 'snap', SIDES, 'side the play was meant for'),
  // The defense's play
  term('coverage', 'snap', 'coverage', 'coverage that was played'),
  number('rushers', 'snap', 0, 11, 'defenders that rushed'),
  term('pressure', 'snap', 'pressure', 'pressure that was called'),
  term('pressurePath', 'snap', 'pressurePath', 'way the pressure took'),
  term('pressureSide', 'snap', 'pressureSide', 'side the pressure came from'),
  term('pressureSource', 'snap', 'pressureSource', 'who brought the pressure'),
  choice(
    'pressureShown',
    'snap',
    ['shown and came', 'shown and dropped', 'not shown and came'],
    'whether the pressure was shown before the snap; shown and dropped is a bluff',
  ),
  term('manualDefenderAction', 'snap', 'manualDefenderAction', 'what the manually controlled defender did'),
  // What happened
  choice('offDesign', 'after', OFF_DESIGN, 'whether the ball left the designed path, and by what seen cause'),
  term('actualGap', 'after', 'gap', 'gap the ball went through'),
  choice('actualSide', 'after', SIDES, 'side the ball went to'),
  term('target', 'after', 'role', 'role of the target or ball carrier'),
  number('targetNumber', 'after', 0, 99, 'jersey number of the target or ball carrier'),
  term('targetDepth', 'after', 'targetDepth', 'depth at which the ball arrived'),
  term('targetZone', 'after', 'targetZone', 'zone in which the ball arrived'),
  choice('unblockedRusher', 'after', FLAG, 'whether a rusher came free'),
  choice('blockDefeated', 'after', FLAG, 'whether a defender beat a block at the point of attack'),
  choice('passerPressured', 'after', FLAG, 'whether the passer was pressured'),
  // Result
  term('snapResult', 'after', 'snapResult', 'result of the snap; exactly one'),
  terms('ledTo', 'after', 'ledTo', 'what the snap led to; any number'),
  number('yardsGained', 'after', -99, 109, 'yards gained from the line of scrimmage'),
  choice('foulSide', 'after', ['offense', 'defense'], 'side that fouled'),
  term('foul', 'after', 'foul', 'the foul'),
  number('foulYards', 'after', 0, 60, 'yards of the foul'),
  choice('foulAnswer', 'after', ['accepted', 'declined', 'offset'], 'what became of the foul'),
  choice('foulTiming', 'after', ['before the snap', 'after the snap'], 'when the foul happened'),
  choice('replayed', 'after', FLAG, 'whether the down was replayed'),
  // Kicks
  number('kickLength', 'after', 0, 109, 'yards the kick travelled'),
  number('returnYards', 'after', -99, 109, 'yards of the return'),
  choice('fake', 'snap', FLAG, 'whether the kick was a fake'),
] as const satisfies readonly PlayField[];

type CatalogueField = (typeof PLAY_FIELDS)[number];
export type PlayFieldName = CatalogueField['name'];
export type NumberFieldName = Extract<CatalogueField, { type: 'number' }>['name'];
/** Fields whose values are codes: choices and single terms. These are what shares are made of. */
export type CodeFieldName = Extract<CatalogueField, { type: 'choice' | 'term' }>['name'];
export type ListFieldName = Extract<CatalogueField, { type: 'terms' }>['name'];

const BY_NAME: ReadonlyMap<string, CatalogueField> = new Map(PLAY_FIELDS.map((field) => [field.name, field]));

/** The field of that name, or undefined. Names are spelled as in the API: `yardsToGoal`. */
export function playField(name: string): CatalogueField | undefined {
  return BY_NAME.get(name);
}

const PLACES: ReadonlyMap<string, number> = new Map(PLAY_FIELDS.map(({ name }, place) => [name, place]));

/** Place of a field in the catalogue, and so of its value among those of a play. */
export function fieldPlace(name: PlayFieldName): number {
  return PLACES.get(name) ?? -1;
}

/** `yardsToGoal` -> `yards_to_goal`: the column of table `play` that holds the field. */
export function columnName(fieldName: string): string {
  return fieldName.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}
