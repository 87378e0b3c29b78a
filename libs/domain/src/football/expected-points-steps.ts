import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { DomainError } from '../domain-error.js';
import { halves } from './expected-points-halves.js';
import { choiceMask, listMask, termMask, type PlayMask } from './play-masks.js';
import { playOrder } from './play-order.js';

/** What each play of a batch led to, as far as the next score goes. Every array has one entry a play. */
export interface ScoringSteps {
  /** 1 where the play is one with a known down, distance and spot: from scrimmage, a spike, a punt, a kick at goal. */
  readonly hasState: Uint8Array;
  /** See the constants of this file. */
  readonly kind: Uint8Array;
  /** Points of a score or 0 at the end of a half; meaningful where `kind` is STEP_ENDS. */
  readonly points: Int8Array;
  /** Place of the play that follows; meaningful where `kind` is STEP_KEEPS or STEP_LOSES. */
  readonly next: Int32Array;
}

/** The chart does not say what followed, or the play is no play with a down. */
export const STEP_UNKNOWN = 0;
/** The side with the ball still has it at the next play. */
export const STEP_KEEPS = 1;
/** The other side has it at the next play. */
export const STEP_LOSES = 2;
/** A score, or the end of the half. */
export const STEP_ENDS = 3;

const TOUCHDOWN = 7;
const FIELD_GOAL = 3;
const SAFETY = 2;

/**
 * What followed each play from scrimmage, punt and kick at goal, seen from the side with the ball. Scores are worth 7, 3
 * and 2, gross of the kickoff that follows. They are taken from what the play is charted to have led to; where that is
 * missing, a try, a kickoff or a free kick next tells of the score before it. A play after which a side only knelt, and
 * the last play of a half, end at nothing. Only plays next to each other in the order of the game are joined, and never
 * across charts or halves; where quarter and drive cannot rule that out, what followed is unknown.
 *
 * Meant for charts of both sides of the ball: in one side's plays the other's drives are missing, and what followed the
 * last play of a drive is then unknown. Reads playType, quarter, drive, down, distance, yardsToGoal, snapResult, ledTo.
 *
 * @throws DomainError `football.play_type_missing`
 * @see Carter and Machol (1971), Operations Research 19, 541-544; Yurko, Ventura and Horowitz (2019), J. Quant. Anal.
 *   Sports 15, 163-183, section 3.1 (classes of the next score and their points; kneel-downs apart)
 */
export function scoringSteps(plays: PlayColumns, vocabulary: Vocabulary): ScoringSteps {
  if (plays.count > 0 && !plays.columns.has('playType')) {
    throw new DomainError('football.play_type_missing', 'the batch carries no play type', { plays: plays.count });
  }
  const facts = readFacts(plays, vocabulary);
  const steps: ScoringSteps = {
    hasState: facts.fromState,
    kind: new Uint8Array(plays.count),
    points: new Int8Array(plays.count),
    next: new Int32Array(plays.count).fill(-1),
  };
  const order = playOrder(plays);
  for (let at = 0; at < order.length; at += 1) {
    const play = order[at] ?? -1;
    if (facts.fromState[play] !== 1) continue;
    const next = order[at + 1] ?? -1;
    const scored = chartedPoints(play, facts);
    if (scored !== null) end(steps, play, scored);
    else step(steps, plays, facts, play, next);
  }
  return steps;
}

interface StepFacts {
  readonly fromState: PlayMask;
  readonly kneel: PlayMask;
  readonly fieldGoal: PlayMask;
  readonly tryNext: PlayMask;
  readonly kickoff: PlayMask;
  readonly freeKick: PlayMask;
  readonly touchdown: PlayMask;
  readonly touchdownAgainst: PlayMask;
  readonly safety: PlayMask;
  readonly good: PlayMask;
  readonly over: PlayMask;
  /** 1 first half, 2 second, one more for each overtime period; 0 unknown. */
  readonly half: Uint8Array;
  readonly drive: Int16Array;
}

function readFacts(plays: PlayColumns, vocabulary: Vocabulary): StepFacts {
  const hasState = new Uint8Array(plays.count);
  const downs = plays.number('down').values;
  const distances = plays.number('distance').values;
  const yardsToGoal = plays.number('yardsToGoal').values;
  const snapped = choiceMask(plays, 'playType', ['scrimmage', 'spike', 'punt', 'field goal']);
  const kneel = choiceMask(plays, 'playType', ['kneel']);
  for (let play = 0; play < plays.count; play += 1) {
    if (downs[play] === UNKNOWN_NUMBER || distances[play] === UNKNOWN_NUMBER) continue;
    if (yardsToGoal[play] !== UNKNOWN_NUMBER) hasState[play] = 1;
  }
  return {
    fromState: snapped.map((is, play) => is & (hasState[play] ?? 0)),
    kneel,
    fieldGoal: choiceMask(plays, 'playType', ['field goal']),
    tryNext: choiceMask(plays, 'playType', ['try kick', 'two-point try']),
    kickoff: choiceMask(plays, 'playType', ['kickoff']),
    freeKick: choiceMask(plays, 'playType', ['free kick']),
    touchdown: listMask(plays, 'ledTo', vocabulary, ['ledTo.touchdown-offense']),
    touchdownAgainst: listMask(plays, 'ledTo', vocabulary, ['ledTo.touchdown-defense-or-return']),
    safety: listMask(plays, 'ledTo', vocabulary, ['ledTo.safety-scored']),
    good: termMask(plays, 'snapResult', vocabulary, ['snapResult.kick-good']),
    over: listMask(plays, 'ledTo', vocabulary, ['ledTo.end-of-half', 'ledTo.end-of-game']),
    half: halves(plays),
    drive: plays.number('drive').values,
  };
}

/** Points that the play itself is charted to have brought, 0 at the end of a half, null where it says neither. */
function chartedPoints(play: number, facts: StepFacts): number | null {
  if (facts.touchdown[play] === 1) return TOUCHDOWN;
  if (facts.touchdownAgainst[play] === 1) return -TOUCHDOWN;
  if (facts.safety[play] === 1) return -SAFETY;
  if (facts.fieldGoal[play] === 1 && facts.good[play] === 1) return FIELD_GOAL;
  return facts.over[play] === 1 ? 0 : null;
}

function step(steps: ScoringSteps, plays: PlayColumns, facts: StepFacts, play: number, next: number): void {
  const half = facts.half[play] ?? 0;
  const sameChart = next >= 0 && plays.chartIndex[next] === plays.chartIndex[play];
  const nextHalf = sameChart ? (facts.half[next] ?? 0) : 0;
  if (!sameChart) {
    // A chart ends with the game, unless it stopped in a quarter that ends no half.
    const quarter = plays.number('quarter').values[play] ?? UNKNOWN_NUMBER;
    if (quarter >= 4) end(steps, play, 0);
    return;
  }
  if (half !== 0 && nextHalf !== 0 && half !== nextHalf) {
    end(steps, play, 0);
    return;
  }
  if (plays.orderInGame[next] !== (plays.orderInGame[play] ?? 0) + 1) return;
  const sameSide = plays.offenseIsHome[next] === plays.offenseIsHome[play];
  const drive = facts.drive[play] ?? UNKNOWN_NUMBER;
  const sameDrive = drive !== UNKNOWN_NUMBER && facts.drive[next] === drive && sameSide;
  const sameHalf = (half !== 0 && half === nextHalf) || sameDrive;
  if (!sameHalf) return;

  if (facts.tryNext[next] === 1) end(steps, play, sameSide ? TOUCHDOWN : -TOUCHDOWN);
  else if (facts.freeKick[next] === 1) end(steps, play, sameSide ? -SAFETY : SAFETY);
  else if (facts.kickoff[next] === 1) {
    // After a kick at goal only that kick can have scored; after anything else the try is missing from the chart.
    if (facts.fieldGoal[play] === 1 && sameSide) end(steps, play, FIELD_GOAL);
  } else if (facts.kneel[next] === 1) end(steps, play, 0);
  else if (facts.fromState[next] === 1) {
    steps.kind[play] = sameSide ? STEP_KEEPS : STEP_LOSES;
    steps.next[play] = next;
  }
}

function end(steps: ScoringSteps, play: number, points: number): void {
  steps.kind[play] = STEP_ENDS;
  steps.points[play] = points;
}
