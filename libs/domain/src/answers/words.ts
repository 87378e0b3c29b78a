import { counted, shareWords, signed } from '../tendencies/words/count-words.js';
import { wilsonInterval } from '../statistics/wilson-interval.js';
import type { AnswerModel } from './answer-model.js';
import type { Answer, Estimate } from './answers-to.js';
import type { DialStop } from './call-mix.js';
import type { GameMet } from './games-met.js';
import type { Mechanism } from './mechanisms.js';
import type { MoveAnswer } from './stages.js';
import type { SituationMix } from './situation-mix.js';

// Sentences about answers. Points are a play's, from the side with the ball; what moved with an answer "went with" it.

/** `-0.16 points a play (-0.43 to +0.10)`. */
export function pointsWords({ mean, interval }: Estimate): string {
  return `${signed(mean)} points a play ${rangeWords(interval)}`;
}

/** `0.26 points a play below`: right for what held a call and for what did not. */
function offExpectation(points: number): string {
  const off = Math.abs(points).toFixed(2);
  return Number(off) === 0 ? 'just' : `${off} points a play ${points > 0 ? 'above' : 'below'}`;
}

function rangeWords({ lower, upper }: Estimate['interval']): string {
  return `(${signed(lower)} to ${signed(upper)})`;
}

export function mechanismWords({ name, with: met, without }: Mechanism): string {
  return `${name} ${met.count} of ${met.known}, else ${without.count} of ${without.known}`;
}

/** One answer: how often it was met, what it gave beside what the call usually gets, what went with it, its price. */
export function answerWords(answer: Answer, confidence: number): string {
  const { option, plays, games, results, againstUsual, mechanisms, price } = answer;
  const { successes, trials } = results;
  const interval = trials === 0 ? null : wilsonInterval(successes, trials, confidence);
  const words = [
    plays === 0
      ? `${option.label}: never seen against it${option.byItsLike ? ', told by its like' : ''}`
      : `${option.label}: met ${counted(plays, 'time')} in ${counted(games, 'game')}`,
    ...(trials === 0
      ? []
      : [`the call succeeded ${shareWords({ count: successes, known: trials, interval, field: null })}`]),
    `${pointsWords(againstUsual)} beside what the call usually gets`,
    ...mechanisms.filter(({ established }) => established).map((one) => `went with ${mechanismWords(one)}`),
    ...(price === null ? [] : [`if they adjust: ${price.option.label}, ${signed(price.points.mean)}`]),
  ];
  return words.join('; ');
}

export function moveWords({ label, plays, games, beyond, results }: MoveAnswer): string {
  const { successes, trials } = results;
  const success = trials === 0 ? [] : [`the call succeeded ${successes} of ${trials}`];
  return [
    `${label}: ${counted(plays, 'time')} in ${counted(games, 'game')}`,
    ...success,
    `${offExpectation(beyond.mean)} what was expected ${rangeWords(beyond.interval)}`,
  ].join('; ');
}

/** A game that met the call; players by what the reader knows them as. */
export function gameMetWords(game: GameMet, offense: string, defense: string): string {
  return `${defense} against ${offense}: ${gameWords(game)}`;
}

/** The same without saying who played. Few plays are drawn so far that what held the call may come out above. */
export function gameWords({ plays, beyond, rawBeyond, interval, ...game }: GameMet): string {
  const { successes, trials, expectedSuccesses, answers } = game;
  const words = [
    `${counted(plays, 'play')}, ${offExpectation(rawBeyond)} what was expected`,
    `drawn towards the other games ${signed(beyond)} ${rangeWords(interval)}`,
    ...(trials === 0 ? [] : [`succeeded ${successes} of ${trials}, expected ${expectedSuccesses.toFixed(1)}`]),
    ...(answers.length === 0
      ? []
      : [`with ${answers.map(({ level, plays: count }) => `${level.label} (${count})`).join(', ')}`]),
  ];
  return words.join('; ');
}

/** A mix with its shares: `Umbra 40 %, Matchbox 60 %`. */
export function mixShareWords({ ours }: Pick<SituationMix, 'ours'>, shares: readonly number[]): string {
  return shares
    .map((share, place) => ({ share, label: ours[place]?.label ?? '' }))
    .filter(({ share }) => Math.round(share * 100) > 0)
    .sort((one, other) => other.share - one.share)
    .map(({ share, label }) => `${label} ${Math.round(share * 100)} %`)
    .join(', ');
}

export function dialName({ lean }: DialStop): string {
  return lean === 0 ? 'safe' : lean === 1 ? 'bold' : lean < 0.5 ? 'rather safe' : 'rather bold';
}

/** One stop of the dial: its mix, the gain if they stay, and what it holds if they adjust. */
export function dialWords(mix: Pick<SituationMix, 'ours' | 'theirs'>, stop: DialStop, confidence: number): string {
  const call = mix.theirs.options[stop.ifTheyAdjust.call]?.label ?? '';
  const sure = Math.round(100 * (1 + confidence)) / 2;
  return (
    `${dialName(stop)}: ${mixShareWords(mix, stop.shares)}; if they stay ${pointsWords(stop.ifTheyStay)} for us; ` +
    `if they adjust (${call}) ${signed(stop.ifTheyAdjust.mean)}, and with ${sure} % at least ${signed(stop.ifTheyAdjust.guarantee)}`
  );
}

const TOO_FEW_PLAYS = 'the archive has too few plays to compare answers';
const CHOSEN = 'defenses choose their answers, so what is told went with an answer and need not come from it';

/** What the answers to one call rest on, and what they cannot say. */
export function answersRestOn({ plays: archive, points }: AnswerModel, plays: number, games: number): string {
  if (points === null) return TOO_FEW_PLAYS;
  const own = `${counted(plays, 'play')} of ${counted(games, 'game')}`;
  return `rests on ${own}, within ${archive} plays of the archive; ${CHOSEN}`;
}

/** The same of the answers to several calls. */
export function archiveRestsOn(model: AnswerModel): string {
  const { plays: archive, points, facts } = model;
  if (points === null) return TOO_FEW_PLAYS;
  const games = counted(facts.plays.charts.length, 'game');
  const own = `rests on ${archive} plays of ${games} that can be compared, out of ${facts.plays.count}`;
  return [own, CHOSEN, ...alikeEverywhere(model)].join('; ');
}

/** Why a mix may name one call from first and ten to third and long. */
function alikeEverywhere({ bySituation: { calls, answers } }: AnswerModel): string[] {
  const alike = [...(calls === null ? ['calls'] : []), ...(answers === null ? ['answers'] : [])];
  if (alike.length === 0) return [];
  return [
    `what ${alike.join(' and ')} give by yards to go cannot be told from this archive, and counts as the same everywhere`,
  ];
}

/** What mixes rest on, and what they leave out. */
export function mixRestsOn(model: AnswerModel, mixes: readonly SituationMix[]): string {
  const { plays: archive, points } = model;
  if (points === null) return TOO_FEW_PLAYS;
  const own = mixes.reduce((sum, { theirs }) => sum + theirs.plays, 0);
  return [
    `rests on ${counted(own, 'play')} of the opponent in ${counted(mixes.length, 'situation')} and on ${archive} plays ` +
      'of the archive; payoffs are of players of the mean, points a play beside the mean of the situation',
    ...alikeEverywhere(model),
  ].join('; ');
}
