import type { Answer, Estimate } from '#domain/answers/answers-to.js';
import type { GameMet } from '#domain/answers/games-met.js';
import type { Mechanism } from '#domain/answers/mechanisms.js';
import type { Adjustment } from '#domain/answers/re-adjustments.js';
import type { RosterSplit } from '#domain/answers/roster-fit.js';
import type { MoveAnswer } from '#domain/answers/stages.js';
import { answerWords, gameMetWords, moveWords } from '#domain/answers/words.js';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import { count, countedShare, interval, orNull, results, rounded, roundedP } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type {
  AnswerResponse,
  GameMetResponse,
  MechanismResponse,
  RefinementResponse,
  PointsResponse,
  ReAdjustmentResponse,
  RosterSplitResponse,
  WhoResponse,
} from './answers.dto.js';

/** Who a player's number is, to this reader. */
export type WhoIs = (player: number) => WhoResponse;

export function pointsResponse({ mean, interval: bounds }: Estimate): PointsResponse {
  return { mean: rounded(mean), interval: interval(bounds) };
}

export function answerResponse(answer: Answer, plays: PlayColumns, who: WhoIs, confidence: number): AnswerResponse {
  const { option, price } = answer;
  return {
    words: answerWords(answer, confidence),
    label: option.label,
    menuCall: orNull(option.menu, ({ id, name, rehearsed, byCheck }) => ({
      ...{ id, name, rehearsed },
      reachableByCheck: byCheck,
    })),
    byItsLike: option.byItsLike,
    timesMet: answer.plays,
    games: answer.games,
    who: answer.players.map(({ player, plays: times }) => ({ ...who(player), plays: times })),
    points: pointsResponse(answer.points),
    againstUsual: pointsResponse(answer.againstUsual),
    success: orNull(answer.success, pointsResponse),
    results: results(answer.results),
    mechanisms: answer.mechanisms.map(mechanismResponse),
    price: orNull(price, ({ option: by, points }) => ({ label: by.label, points: pointsResponse(points) })),
    plays: playReferences(answer.evidence, plays),
  };
}

function mechanismResponse(mechanism: Mechanism): MechanismResponse {
  const { name, with: met, without, difference, pValue, established } = mechanism;
  return {
    name,
    with: count(met),
    without: count(without),
    difference: orNull(difference, interval),
    pValue: orNull(pValue, roundedP),
    established,
  };
}

export function moveResponse(move: MoveAnswer, plays: PlayColumns): RefinementResponse {
  const { what, label, termId, plays: times, games, beyond, evidence } = move;
  return {
    words: moveWords(move),
    ...{ what, label, termId, games },
    timesMet: times,
    beyond: pointsResponse(beyond),
    results: results(move.results),
    plays: playReferences(evidence, plays),
  };
}

export function gameMetResponse(game: GameMet, gameId: string, plays: PlayColumns, who: WhoIs): GameMetResponse {
  const [offense, defense] = [who(game.offense), who(game.defense)];
  return {
    words: gameMetWords(game, offense.handle ?? 'name withheld', defense.handle ?? 'name withheld'),
    gameId,
    offense,
    defense,
    beyond: pointsResponse({ mean: game.beyond, interval: game.interval }),
    rawBeyond: rounded(game.rawBeyond),
    success: { count: game.successes, known: game.trials },
    expectedSuccesses: rounded(game.expectedSuccesses),
    answers: game.answers.map(({ level, plays: times }) => ({ label: level.label, plays: times })),
    plays: playReferences(game.evidence, plays),
  };
}

export function reAdjustmentResponse({ shown, plays, snapped, answers }: Adjustment): ReAdjustmentResponse {
  return {
    label: shown.label,
    timesShown: plays,
    snapped,
    answers: answers.map(({ answer, share, results: of, snapped: then, then: next }) => ({
      label: answer.label,
      ...countedShare(share),
      results: results(of),
      snapped: then,
      then: next.map(({ move, share: after, results: came }) => ({
        label: move.label,
        ...countedShare(after),
        results: results(came),
      })),
    })),
  };
}

export function rosterSplitResponse(
  { side, unit, strength, results: of, evidence }: RosterSplit,
  plays: PlayColumns,
): RosterSplitResponse {
  return { side, unit, strength, results: results(of), plays: playReferences(evidence, plays) };
}
