import type { AnswerModel } from '../answers/answer-model.js';
import { wilsonInterval } from '../statistics/wilson-interval.js';
import type { DimensionCodes } from '../tendencies/dimension-codes.js';
import { readDimension } from '../tendencies/dimensions.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { TheirHabit } from './call-sheet-shape.js';

/** A habit with the places of its plays in the batch, the newest game first. */
export interface FoundHabit {
  readonly habit: TheirHabit;
  readonly places: readonly number[];
}

const MOST_HABITS = 2;

/** What an opponent's plays are told by: concepts of the offense, coverages of the defense. */
export function habitsOf({ facts, vocabulary }: AnswerModel, side: Side): DimensionCodes {
  return readDimension(side === 'offense' ? 'concept' : 'coverage', facts, vocabulary);
}

/** Ascending places of the plays of a player on a side that count. */
export function playsOf({ facts, coded }: AnswerModel, side: Side, player: number): number[] {
  const whose = side === 'offense' ? coded.offense : coded.defense;
  const places: number[] = [];
  for (let play = 0; play < whose.length; play += 1) {
    if (player >= 0 && whose[play] === player && facts.counts[play] === 1) places.push(play);
  }
  return places;
}

/** What is done most on some plays. */
export function habitsIn(
  { facts }: AnswerModel,
  { codes, values }: DimensionCodes,
  among: readonly number[],
  confidence: number,
): { readonly habits: readonly FoundHabit[]; readonly snaps: number; readonly games: number } {
  const byValue = values.map((): number[] => []);
  const games = new Set<number>();
  let known = 0;
  for (const play of among) {
    games.add(facts.plays.chartIndex[play] ?? -1);
    const code = codes[play] ?? -1;
    if (code < 0) continue;
    known += 1;
    byValue[code]?.push(play);
  }
  const { plays } = facts;
  const habits = byValue
    .map((places, value) => ({ places, label: values[value]?.label ?? '' }))
    .filter(({ places }) => places.length > 0)
    .sort((one, other) => other.places.length - one.places.length || one.label.localeCompare(other.label))
    .slice(0, MOST_HABITS)
    .map(({ places, label }): FoundHabit => ({
      habit: {
        label,
        count: places.length,
        known,
        interval: wilsonInterval(places.length, known, confidence),
        plays: places.map((play) => ({
          chartId: plays.charts[plays.chartIndex[play] ?? -1]?.chartId ?? '',
          playNumber: plays.playNumber[play] ?? -1,
        })),
      },
      places,
    }));
  return { habits, snaps: among.length, games: games.size };
}
