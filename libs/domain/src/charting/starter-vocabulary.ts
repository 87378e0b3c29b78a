import type { TermKind } from './play-fields.js';
import { ALIGNMENT_TERMS } from './starter-terms/alignment-terms.js';
import { CALL_TERMS } from './starter-terms/call-terms.js';
import { DEFENSE_TERMS } from './starter-terms/defense-terms.js';
import { PATH_TERMS } from './starter-terms/path-terms.js';
import { PERSONNEL_TERMS } from './starter-terms/personnel-terms.js';
import { PRE_SNAP_TERMS } from './starter-terms/pre-snap-terms.js';
import { PRESSURE_TERMS } from './starter-terms/pressure-terms.js';
import { RESULT_TERMS } from './starter-terms/result-terms.js';
import type { StarterTerm } from './starter-terms/starter-term.js';

export type { StarterTerm } from './starter-terms/starter-term.js';

/**
 * The vocabulary every clan starts with: generic trade terms, common practice with no single source. What could not be
 * seen is no term; "none" and "no motion" are terms (it was seen, and there was none).
 *
 * The order is append-only, since ids in the database follow it: a new term, whatever its kind, goes after the last
 * group and never into one. A term is never removed; a wrong name or synonym may be mended, a code may not.
 */
export const STARTER_TERMS: readonly StarterTerm[] = [
  ...ALIGNMENT_TERMS,
  ...PERSONNEL_TERMS,
  ...CALL_TERMS,
  ...PATH_TERMS,
  ...DEFENSE_TERMS,
  ...PRESSURE_TERMS,
  ...PRE_SNAP_TERMS,
  ...RESULT_TERMS,
];

/** A word that staffs use for different things. */
export interface AmbiguousWord {
  readonly word: string;
  /** What to put to the person who used it, once for each sheet. */
  readonly question: string;
  /** Kinds in which the word is a name or synonym after all: where a column fixes one of these, it is accepted. */
  readonly kinds: readonly TermKind[];
}

const SIDE_OF_WHAT = 'of the formation, of the backfield, of the defense, or of the pressure';
const DEPENDS_ON_STAFF = 'means different things to different staffs';

/** Words that are never taken for a term on their own: the person is asked instead. */
export const ASK_NEVER_GUESS: readonly AmbiguousWord[] = [
  {
    word: 'nickel',
    question: 'Is "nickel" the people on defense, a player, or a coverage tag?',
    kinds: ['defensivePersonnel'],
  },
  { word: 'stack', question: 'Does "stack" say where receivers or where linebackers stand?', kinds: ['formation'] },
  { word: 'over', question: 'Is "over" a front, a route, or a protection?', kinds: [] },
  { word: 'under', question: 'Is "under" a front, a route, or a protection?', kinds: [] },
  { word: 'strong', question: `Strong side of what: ${SIDE_OF_WHAT}?`, kinds: [] },
  { word: 'weak', question: `Weak side of what: ${SIDE_OF_WHAT}?`, kinds: [] },
  { word: 'flip', question: 'What was flipped: the play, the formation, or the defense?', kinds: [] },
  { word: 'slide', question: 'Who slides: the line, the protection, or the quarterback?', kinds: [] },
  { word: 'spread', question: 'Is "spread" two by two wide, three by one wide, or a style?', kinds: [] },
  { word: 'blitz', question: 'Is a "blitz" five or more rushers, or anybody who is not a lineman?', kinds: [] },
  { word: 'pressure', question: 'Was the "pressure" called by the defense, or felt by the passer?', kinds: [] },
  { word: 'option', question: 'Is "option" the family of runs, or a route?', kinds: ['callFamily'] },
  { word: 'read', question: 'Is "read" a zone read, or a coverage read?', kinds: [] },
  { word: 'slot', question: 'Is "slot" a receiver, a formation, or a defender?', kinds: [] },
  { word: 'bear', question: `"Bear" ${DEPENDS_ON_STAFF}: which front is it here?`, kinds: [] },
  { word: 'eagle', question: `"Eagle" ${DEPENDS_ON_STAFF}: which front is it here?`, kinds: [] },
  { word: 'cover 5', question: `"Cover 5" ${DEPENDS_ON_STAFF}: which coverage is it here?`, kinds: [] },
  { word: 'cover 7', question: `"Cover 7" ${DEPENDS_ON_STAFF}: which coverage is it here?`, kinds: [] },
  { word: 'cover 8', question: `"Cover 8" ${DEPENDS_ON_STAFF}: which coverage is it here?`, kinds: [] },
  { word: 'cover 9', question: `"Cover 9" ${DEPENDS_ON_STAFF}: which coverage is it here?`, kinds: [] },
  { word: 'dollar', question: 'How many defensive backs does "dollar" bring in?', kinds: [] },
  {
    word: 'quarter',
    question: 'How many defensive backs does "quarter" bring in? (Quarters is a coverage.)',
    kinds: [],
  },
  { word: 'boundary', question: 'Is "boundary" a side of the field, or a corner?', kinds: [] },
  { word: 'wide', question: 'Is "wide" a formation, the line\'s splits, or the ball carrier\'s path?', kinds: [] },
  { word: 'middle', question: 'Is "middle" a lane of the field, a hash, or a gap?', kinds: ['gap', 'targetZone'] },
  { word: 'heavy', question: 'Is "heavy" a formation, or people?', kinds: ['formation'] },
  { word: 'boot', question: 'Was the "boot" with or without a run fake?', kinds: [] },
  { word: 'draw', question: 'Is the "draw" run by a back or by the quarterback?', kinds: ['callFamily'] },
  { word: 'special', question: 'Which play is "special"?', kinds: [] },
  { word: 'trick', question: 'Which play was the "trick"?', kinds: ['callFamily'] },
  { word: 'switch', question: 'Is "switch" a release of the routes, or a change of defenders?', kinds: [] },
];
