import { UNKNOWN_CODE, UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { CodeFieldName } from '../charting/play-fields.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { classCodes, fieldCodes, wordValue, type DimensionCodes } from './dimension-codes.js';
import type { DimensionName } from './dimension-names.js';
import { directionCodes } from './direction-codes.js';
import type { TendencyPlays } from './tendency-plays.js';

type Reader = (facts: TendencyPlays, vocabulary: Vocabulary) => DimensionCodes;

/** A field that is a dimension as it stands, or how one is read off others. */
const READERS: Readonly<Record<DimensionName, CodeFieldName | Reader>> = {
  called: (facts) => ({ codes: new Int16Array(facts.called), values: ['run', 'pass'].map(wordValue) }),
  callFamily: 'callFamily',
  concept: 'concept',
  formation: 'formation',
  backfield: 'backfield',
  motion: 'motion',
  direction: directionCodes,
  targetDepth: 'targetDepth',
  tempo: 'tempo',
  offensivePersonnel: 'offensivePersonnel',
  front: 'front',
  shell: 'shell',
  coverage: 'coverage',
  coverageFamily: coverageFamilyCodes,
  pressure: pressureCodes,
  rushers: (facts) => classCodes('rushers', facts, RUSHER_CLASSES, (rushers) => rushers),
  manualDefenderAction: 'manualDefenderAction',
  boxCount: (facts) => classCodes('boxCount', facts, BOX_CLASSES, boxClass),
};

const RUSHER_CLASSES = Array.from({ length: 12 }, (_, rushers) => (rushers === 1 ? '1 rusher' : `${rushers} rushers`));

// Six, seven and eight are where a seven-man offensive surface is outnumbered; common practice, no source.
const BOX_CLASSES = ['six or fewer in the box', 'seven in the box', 'eight or more in the box'];

function boxClass(count: number): number {
  if (count <= 6) return 0;
  return count === 7 ? 1 : 2;
}

const COVERAGE_FAMILIES = ['man', 'zone', 'match'];

/** Man, zone or match, through the parents of the coverage that was played; unknown where it rolls up to none. */
function coverageFamilyCodes(facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  const { codes, meanings } = facts.plays.code('coverage');
  const families = COVERAGE_FAMILIES.map((family) => vocabulary.idOfCode(`coverage.${family}`));
  const familyOf = meanings.map((id) => families.findIndex((family) => vocabulary.isWithin(id, family)));
  // A plain loop: typed arrays are mapped several times slower, and a batch can be a whole archive.
  const translated = new Int16Array(codes.length).fill(UNKNOWN_CODE);
  for (let play = 0; play < translated.length; play += 1) {
    const code = codes[play] ?? UNKNOWN_CODE;
    if (code >= 0) translated[play] = familyOf[code] ?? UNKNOWN_CODE;
  }
  return { codes: translated, values: COVERAGE_FAMILIES.map(wordValue) };
}

const FOUR_OR_FEWER = ['two-man-rush', 'three-man-rush', 'four-man-rush', 'line-game', 'simulated-pressure'];
const FIVE_OR_MORE = ['five-man-zone-pressure', 'five-man-man-pressure', 'six-man-pressure', 'all-out-pressure'];

/**
 * Whether five or more rushed. Counted rushers come first; where they were not counted, a pressure term that fixes
 * their number does, and one that does not (a delayed rush, an overload) leaves it unknown.
 */
function pressureCodes(facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  const rushers = facts.plays.number('rushers').values;
  const { codes, meanings } = facts.plays.code('pressure');
  const within = (id: number, terms: readonly string[]): boolean =>
    terms.some((term) => vocabulary.isWithin(id, vocabulary.idOfCode(`pressure.${term}`)));
  const byTerm = meanings.map((id) => (within(id, FIVE_OR_MORE) ? 1 : within(id, FOUR_OR_FEWER) ? 0 : UNKNOWN_CODE));
  const pressured = new Int16Array(facts.plays.count);
  for (let play = 0; play < pressured.length; play += 1) {
    const counted = rushers[play] ?? UNKNOWN_NUMBER;
    const term = codes[play] ?? UNKNOWN_CODE;
    const told = term < 0 ? UNKNOWN_CODE : (byTerm[term] ?? UNKNOWN_CODE);
    pressured[play] = counted === UNKNOWN_NUMBER ? told : counted >= 5 ? 1 : 0;
  }
  return { codes: pressured, values: ['four or fewer rush', 'five or more rush'].map(wordValue) };
}

/**
 * Reads one dimension off a batch of plays. "None" (no motion) is a value, unknown never is. Derived dimensions are
 * computed here and stored nowhere. Common trade practice, no source.
 *
 * @param name       - the dimension
 * @param facts      - any batch; a field that it does not carry is unknown on every play
 * @param vocabulary - the reader's; its names become the labels, its parents decide what rolls up
 * @returns one code a play and what the codes stand for; codes differ from batch to batch, keys do not
 * @throws DomainError `vocabulary.unknown_code` when the vocabulary lacks the starter terms
 */
export function readDimension(name: DimensionName, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  const reader = READERS[name];
  return typeof reader === 'string' ? fieldCodes(reader, facts, vocabulary) : reader(facts, vocabulary);
}

/** The field that is this dimension as it stands, null where it is read off others. */
export function chartedField(name: DimensionName): CodeFieldName | null {
  const reader = READERS[name];
  return typeof reader === 'string' ? reader : null;
}
