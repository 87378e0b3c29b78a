import { othersPlaces } from '../../tendencies/decisions/asked-plays.js';
import { countedShare, type Counted, type CountedShare } from '../../tendencies/decisions/counted-share.js';
import type { DimensionCodes } from '../../tendencies/dimension-codes.js';
import type { DimensionValue } from '../../tendencies/dimension-names.js';
import { Evidence } from '../../tendencies/evidence.js';
import { readCues, type Cue, type CueValue } from '../../tendencies/tells/cues.js';
import { mayTell, readTold, TOLD_DIMENSIONS, type ToldDimension } from '../../tendencies/tells/told-dimensions.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { callWords } from '../../tendencies/words/call-verbs.js';
import { shareWords, wordedShare } from '../../tendencies/words/count-words.js';
import { cueWords } from '../../tendencies/words/tell-words.js';
import { habitTopic, ofShare, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { isApart, offTheField } from './off-the-field.js';

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
export function looksTopic(source: HabitSource): HabitTopic {
  const { side, asked } = source;
  const { facts, field, player, vocabulary, confidence } = asked;
  if (field === null) return habitTopic(source, 'looks', 'no field to hold the looks against', []);
  const cues = readCues(side, facts, vocabulary);
  const fieldCues = readCues(side, field.facts, vocabulary);
  const others = othersPlaces(field, player).filter((play) => field.facts.counts[play] === 1);
  const looks = TOLD_DIMENSIONS[side].flatMap((dimension) => {
    const read = readTold(dimension, facts, vocabulary);
    const fieldRead = readTold(dimension, field.facts, vocabulary);
    return cues.flatMap((cue, place) => {
      const fieldCue = fieldCues[place];
      if (fieldCue === undefined || !mayTell(cue.names, dimension)) return [];
      const theirs = tally(fieldCue, fieldRead, others);
      return looksOf(facts, cue, dimension, read, theirs, confidence);
    });
  });
  const standing = offTheField(looks, ({ share }) => share, 'more').filter(({ share, otherwise }) =>
    isApart(share, otherwise, confidence),
  );
  return habitTopic(
    source,
    'looks',
    standing.length === 0
      ? `none of ${looks.length} pairs of look and call is unlike the field's`
      : 'more often from this look than the field, and than this player from other looks; down and distance not held',
    standing.map(findingOf),
  );
}

/** Counts by cue value and call, by their keys, with the sum of each cue value under an empty call. */
function tally(cue: Cue, read: DimensionCodes, places: Int32Array): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  const add = (key: string): void => void counts.set(key, (counts.get(key) ?? 0) + 1);
  for (const play of places) {
    const cueValue = cue.values[cue.codes[play] ?? -1];
    const call = read.values[read.codes[play] ?? -1];
    if (cueValue === undefined || call === undefined) continue;
    add(keyOf(cueValue.key, call.key));
    add(keyOf(cueValue.key, ''));
  }
  return counts;
}

function looksOf(
  facts: TendencyPlays,
  cue: Cue,
  dimension: ToldDimension,
  read: DimensionCodes,
  theirs: ReadonlyMap<string, number>,
  confidence: number,
): Look[] {
  const places = Int32Array.from(facts.counts.keys()).filter((play) => facts.counts[play] === 1);
  const mine = tally(cue, read, places);
  const sumOf = (call: string): number =>
    cue.values.reduce((sum, cueValue) => sum + (mine.get(keyOf(cueValue.key, call)) ?? 0), 0);
  return cue.values.flatMap((cueValue, shown) =>
    read.values.flatMap((call, called): Look[] => {
      const of = (counts: ReadonlyMap<string, number>): Counted => ({
        count: counts.get(keyOf(cueValue.key, call.key)) ?? 0,
        known: counts.get(keyOf(cueValue.key, '')) ?? 0,
      });
      const own = of(mine);
      if (own.known === 0) return [];
      const evidence = new Evidence(
        facts.plays,
        places,
        (play) => cue.codes[play] === shown && read.codes[play] === called,
      );
      return [
        {
          ...{ cue, cueValue, dimension, call },
          share: countedShare(own, of(theirs), confidence, evidence),
          otherwise: { count: sumOf(call.key) - own.count, known: sumOf('') - own.known },
        },
      ];
    }),
  );
}

function keyOf(cueValue: string, call: string): string {
  return `${cueValue}\n${call}`;
}

function findingOf({ cue, cueValue, dimension, call, share, otherwise }: Look): HabitFinding {
  const look = cueWords(cue, cueValue);
  const what = callWords(dimension, call.label);
  return {
    ...ofShare(share),
    key: [cue.names.join('+'), cueValue.key, dimension, call.key],
    label: `${what} with ${look}`,
    words: `${look}: ${what} ${shareWords(wordedShare(share))} with the same; ${otherwise.count} of ${otherwise.known} from other looks`,
    status: 'established',
  };
}
