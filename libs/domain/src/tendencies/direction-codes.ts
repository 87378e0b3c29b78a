import { UNKNOWN_CODE } from '../charting/play-columns.js';
import { playField } from '../charting/play-fields.js';
import { wordValue, type DimensionCodes } from './dimension-codes.js';
import type { TendencyPlays } from './tendency-plays.js';

const DIRECTIONS = ['to strength', 'away from strength', 'up the middle', 'to a side of a balanced set'];
const [TO, AWAY, MIDDLE, BALANCED] = [0, 1, 2, 3];

/**
 * Where the play was meant to go, seen from the formation's strength. The middle is the middle whatever the strength;
 * a side needs the strength to be known.
 */
export function directionCodes(facts: TendencyPlays): DimensionCodes {
  const side = facts.plays.code('designedSide');
  const strength = facts.plays.code('strength');
  const sideWords = side.meanings.map((place) => choiceWord('designedSide', place));
  const strengthWords = strength.meanings.map((place) => choiceWord('strength', place));
  // Every pair answered once, so that the loop only looks up.
  const table = sideWords.map((towards) => strengthWords.map((strong) => direction(towards, strong)));
  const unknownStrength = sideWords.map((towards) => direction(towards, null));

  const codes = new Int16Array(facts.plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < codes.length; play += 1) {
    const towards = side.codes[play] ?? UNKNOWN_CODE;
    if (towards < 0) continue;
    codes[play] = table[towards]?.[strength.codes[play] ?? UNKNOWN_CODE] ?? unknownStrength[towards] ?? UNKNOWN_CODE;
  }
  return { codes, values: DIRECTIONS.map(wordValue) };
}

function direction(towards: string, strong: string | null): number {
  if (towards === 'middle') return MIDDLE;
  if (strong === null) return UNKNOWN_CODE;
  if (strong === 'balanced') return BALANCED;
  return towards === strong ? TO : AWAY;
}

function choiceWord(name: string, place: number): string {
  const field = playField(name);
  return (field?.type === 'choice' ? field.choices[place] : undefined) ?? '';
}
