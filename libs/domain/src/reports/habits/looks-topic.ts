import { allPlaces, othersPlaces } from '../../tendencies/decisions/asked-plays.js';
import { countedShare, type Counted, type CountedShare } from '../../tendencies/decisions/counted-share.js';
import type { DimensionCodes } from '../../tendencies/dimension-codes.js';
import type { DimensionValue } from '../../tendencies/dimension-names.js';
import { Evidence } from '../../tendencies/evidence.js';
import { readCues, type Cue, type CueValue } from '../../tendencies/tells/cues.js';
import { mayTell, readTold, TOLD_DIMENSIONS, type ToldDimension } from '../../tendencies/tells/told-dimensions.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { callWords } from '../../tendencies/words/call-verbs.js';
import { shareWords, withCounts, wordedShare } from '../../tendencies/words/count-words.js';
import { cueWords } from '../../tendencies/words/tell-words.js';
import { habitTopic, ofShare, type HabitFinding, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { FEWEST_KNOWN, heldAgainstField, isApart, without } from './off-the-field.js';

/** Of those that are not proven. A choice, no source. */
const MOST_LEADS = 3;

interface Look {
  readonly cue: Cue;
  readonly cueValue: CueValue;
  readonly dimension: ToldDimension;
  readonly call: DimensionValue;
  readonly share: CountedShare;
  /** The same call on the player's plays without the cue. */
  readonly otherwise: Counted;
}

/**
 * What the player calls from a look, where others call something else from the same look and the player does otherwise
 * too. Weaker than a tell, which is held against the player's own calls in the same situation of the same game, and
 * therefore seen on fewer plays: a few games show what a look means to one player and to nobody else.
 */
export function looksTopic(source: HeldSource): HabitTopic {
  const { side, asked } = source;
  const { facts, field, player, vocabulary, confidence } = asked;
  if (field === null)
    return habitTopic(source, 'looks', 'no field to hold the looks against', [], 'nothing to compare with');
  const cues = readCues(side, facts, vocabulary);
  const fieldCues = readCues(side, field.facts, vocabulary);
  const places = counting(facts, allPlaces(facts));
  const others = counting(field.facts, othersPlaces(field, player));
  const looks = TOLD_DIMENSIONS[side].flatMap((dimension) => {
    const read = readTold(dimension, facts, vocabulary);
    const fieldRead = readTold(dimension, field.facts, vocabulary);
    return cues.flatMap((cue, place) => {
      const fieldCue = fieldCues[place];
      if (fieldCue === undefined || !mayTell(cue.names, dimension)) return [];
      const theirs = tally(fieldCue, fieldRead, others);
      return looksOf(facts, places, dimension, tally(cue, read, places), theirs, confidence);
    });
  });
  const tested = looks.filter(({ share }) => share.known >= FEWEST_KNOWN);
  const held = heldAgainstField(source, tested, ({ share }) => share, 'more').filter(({ item }) =>
    isApart(item.share, item.otherwise, confidence),
  );
  const standing = held.filter(({ stands }) => stands);
  const told = new Set(standing.map(({ item }) => lookOf(item)));
  const nearest = held
    .filter(({ stands, item }) => {
      if (stands || !isMore(item) || told.has(lookOf(item))) return false;
      // Another call from the same look mostly says the same again.
      told.add(lookOf(item));
      return true;
    })
    .slice(0, MOST_LEADS);
  return habitTopic(
    source,
    'looks',
    tested.length === 0 ? 'no look was seen often enough with the call known' : noteOf(tested.length, standing.length),
    [...standing, ...nearest].map(({ item, stands }) => findingOf(item, stands)),
    tested.length === 0 ? 'too little film' : 'not found',
  );
}

function lookOf({ cue, cueValue }: Look): string {
  return `${cue.names.join('+')} ${cueValue.key}`;
}

/** Whether the call comes more often from the look, both than of others and than from the player's other looks. */
function isMore({ share: { count, known, field }, otherwise }: Look): boolean {
  return count / known > Math.max(field?.share ?? 0, otherwise.count / otherwise.known);
}

function noteOf(tested: number, standing: number): string {
  const more = 'more often from this look than the field, and than this player from other looks';
  if (standing > 0) return `${more}; down and distance not held`;
  return tested === 1
    ? "the one pair of look and call seen often enough is not shown to be unlike the field's"
    : `none of ${tested} pairs of look and call seen often enough is shown to be unlike the field's`;
}

function counting({ counts }: TendencyPlays, places: Int32Array): Int32Array {
  return places.filter((play) => counts[play] === 1);
}

/** Counts of each cue value with each call, and of each cue value with any. */
interface Tally {
  readonly cue: Cue;
  readonly read: DimensionCodes;
  /** Cue values x calls. */
  readonly cells: Int32Array;
  readonly known: Int32Array;
}

function tally(cue: Cue, read: DimensionCodes, places: Int32Array): Tally {
  const calls = read.values.length;
  const cells = new Int32Array(cue.values.length * calls);
  const known = new Int32Array(cue.values.length);
  for (const play of places) {
    const [shown, called] = [cue.codes[play] ?? -1, read.codes[play] ?? -1];
    if (shown < 0 || called < 0) continue;
    const cell = shown * calls + called;
    cells[cell] = (cells[cell] ?? 0) + 1;
    known[shown] = (known[shown] ?? 0) + 1;
  }
  return { cue, read, cells, known };
}

/** Places differ from batch to batch, keys do not; nothing known where the batch lacks the cue value. */
function counted({ cue, read, cells, known }: Tally, cueKey: string, callKey: string): Counted {
  const shown = cue.values.findIndex(({ key }) => key === cueKey);
  const called = read.values.findIndex(({ key }) => key === callKey);
  return {
    count: shown < 0 || called < 0 ? 0 : (cells[shown * read.values.length + called] ?? 0),
    known: known[shown] ?? 0,
  };
}

function looksOf(
  facts: TendencyPlays,
  places: Int32Array,
  dimension: ToldDimension,
  mine: Tally,
  theirs: Tally,
  confidence: number,
): Look[] {
  const { cue, read, cells, known } = mine;
  const calls = read.values.length;
  const allKnown = known.reduce((sum, ofCue) => sum + ofCue, 0);
  return read.values.flatMap((call, called) => {
    const all: Counted = {
      count: cue.values.reduce((sum, _, shown) => sum + (cells[shown * calls + called] ?? 0), 0),
      known: allKnown,
    };
    return cue.values.flatMap((cueValue, shown): Look[] => {
      const own = counted(mine, cueValue.key, call.key);
      if (own.known === 0) return [];
      const evidence = new Evidence(
        facts.plays,
        places,
        (play) => cue.codes[play] === shown && read.codes[play] === called,
      );
      const field = counted(theirs, cueValue.key, call.key);
      return [
        {
          ...{ cue, cueValue, dimension, call },
          share: countedShare(own, field, confidence, evidence),
          otherwise: without(all, own),
        },
      ];
    });
  });
}

function findingOf({ cue, cueValue, dimension, call, share, otherwise }: Look, stands: boolean): HabitFinding {
  const look = cueWords(cue, cueValue);
  const what = callWords(dimension, call.label);
  const counts = withCounts(what, shareWords(wordedShare(share)));
  const words = `${look}: ${counts} with the same; ${otherwise.count} of ${otherwise.known} from other looks`;
  return {
    ...ofShare(share),
    key: [cue.names.join('+'), cueValue.key, dimension, call.key],
    label: `${what} with ${look}`,
    words: stands ? words : `${words}; not proven`,
    status: stands ? 'established' : 'unproven',
  };
}
