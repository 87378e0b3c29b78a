import type { PlayColumns } from '#domain/charting/play-columns.js';
import { playField, type CodeFieldName } from '#domain/charting/play-fields.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import type { GameSoFar } from '#domain/forecast/live/game-in-progress.js';
import type { EvidenceStep, NextCall } from '#domain/forecast/live/next-call.js';
import { sideOfTarget, type ForecastTarget } from '#domain/forecast/targets.js';
import { FEWEST_FOR_PERCENT, percent } from '#domain/tendencies/words/count-words.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type { NextCallQuestion } from './read-question.js';

export const LIVE_CAUTION = "The event's own rules decide whether aids may be used during play.";
/** Fewer plays of the player than this carry no call by themselves; common practice, no source. */
const FEWEST_TO_REST_ON = 5;
const MOST_CLIPS = 20;

/** What is answered, to be put as JSON (`NextCallResponse`) or as a line. */
export interface NextCallAnswer {
  readonly playerId: string;
  readonly handle: string;
  readonly target: ForecastTarget;
  readonly answeredBy: 'counts' | 'model';
  readonly words: string;
  readonly calls: readonly AnsweredCall[];
  readonly look: ToldLook;
  readonly warning: string | null;
}

interface AnsweredCall {
  readonly call: string;
  readonly probability: number;
  readonly fieldShare: number;
  /** As the items of a JSON list. */
  readonly reasons: string;
}

/** What an archive was counted for, in words: it comes back with every question about the same look. */
interface ToldLook {
  readonly handle: string;
  readonly steps: readonly ToldStep[];
  /** What an answer rests on: the narrowest plays that there are. */
  readonly restsOn: string;
  readonly rests: EvidenceStep;
  /** The reasons for each class that was asked for, as the items of a JSON list. */
  readonly reasons: Map<number, string>;
  /** The plays that it rests on, as JSON. */
  readonly plays: string;
}

interface ToldStep {
  readonly step: EvidenceStep;
  /** As a JSON text without the quotes around it. */
  readonly label: string;
}

export function nextCallAnswer(
  who: { readonly playerId: string; readonly handle: string },
  { top }: NextCallQuestion,
  { names, target, facts }: CallArchive,
  game: GameSoFar,
  { probabilities, counted, since }: NextCall,
  vocabulary: Vocabulary,
): NextCallAnswer {
  const { playerId, handle } = who;
  const wordOfCue = (name: CodeFieldName): string => wordOf(name, game, vocabulary);
  const look = toldLook(counted, handle, wordOfCue, facts.plays);
  const today = since.map((step) => toldStep(step, handle, wordOfCue));
  const { rests, restsOn } = look;
  const order = [...names.keys()].sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0) || a - b);
  const calls = order.slice(0, top).map((k) => ({
    call: names[k] ?? '',
    probability: rounded(probabilities[k]),
    fieldShare: rounded(counted[0]?.shares[k]),
    reasons: [reasonsOf(look, k), ...today.map((told) => reasonJson(told, k))].join(),
  }));
  const likely = calls.map(
    ({ call, probability }, place) =>
      `${call} ${percent(probability)} (${rests.counts[order[place] ?? 0] ?? 0} of ${rests.known})`,
  );
  const warning = warningOf(rests, handle);
  return {
    playerId,
    handle,
    target,
    answeredBy: since.some(({ of }) => of === 'together') ? 'model' : 'counts',
    words: `${restsOn}: ${likely.join(', ')}${warning === null ? '' : `; ${warning}`}`,
    calls,
    look,
    warning,
  };
}

const TOLD = new WeakMap<readonly EvidenceStep[], ToldLook>();

function toldLook(
  counted: readonly EvidenceStep[],
  handle: string,
  wordOfCue: (name: CodeFieldName) => string,
  plays: PlayColumns,
): ToldLook {
  const known = TOLD.get(counted);
  // Players are renamed without the archive being another.
  if (known?.handle === handle) return known;
  const rests = counted.at(-1);
  if (rests === undefined) throw new Error('every answer begins with all calls of the field');
  const references = rests.evidence === null ? [] : playReferences(rests.evidence, plays, MOST_CLIPS);
  const told = {
    handle,
    steps: counted.map((step) => toldStep(step, handle, wordOfCue)),
    restsOn: stepLabel(rests, handle, wordOfCue),
    rests,
    reasons: new Map<number, string>(),
    plays: JSON.stringify(references),
  };
  TOLD.set(counted, told);
  return told;
}

function toldStep(step: EvidenceStep, handle: string, wordOfCue: (name: CodeFieldName) => string): ToldStep {
  return { step, label: JSON.stringify(stepLabel(step, handle, wordOfCue)).slice(1, -1) };
}

function stepLabel(
  { of, situation, cues, known }: EvidenceStep,
  handle: string,
  wordOfCue: (name: CodeFieldName) => string,
): string {
  if (of === 'together') return `all that is known weighed at once, as ${known} calls taught`;
  const whose = of === 'field' ? 'field' : of === 'today' ? 'this game' : handle;
  const on = [...(situation === null ? [] : [situation]), ...cues.map((name) => `${name} ${wordOfCue(name)}`)];
  return on.length === 0 ? `${whose}, all calls` : `${whose} on ${on.join(', ')}`;
}

function reasonsOf({ steps, reasons }: ToldLook, k: number): string {
  let told = reasons.get(k);
  if (told === undefined) reasons.set(k, (told = steps.map((step) => reasonJson(step, k)).join()));
  return told;
}

/** See `NextCallReasonResponse`. */
function reasonJson({ step, label }: ToldStep, k: number): string {
  const { of, known, games } = step;
  const count = step.counts[k] ?? 0;
  const probability = rounded(step.shares[k]);
  const share = of === 'together' ? percent(probability) : shareWords(count, known);
  return `{"words":"${label}: ${share}","of":"${of}","count":${count},"known":${known},"games":${games},"probability":${probability}}`;
}

/** Six digits are more than any archive tells. */
function rounded(share = 0): number {
  if (Number.isNaN(share)) throw new RangeError('the share of a call is no number');
  return Math.round(share * 1e6) / 1e6;
}

/** Put together by hand, since it is for one question alone and most of it was written before. See `NextCallResponse`. */
export function nextCallJson(answer: NextCallAnswer): string {
  const { playerId, handle, target, answeredBy, words, calls, look, warning } = answer;
  const { rests, restsOn, plays } = look;
  const told = calls.map(
    ({ call, probability, fieldShare, reasons }) =>
      `{"call":${JSON.stringify(call)},"probability":${probability},"fieldShare":${fieldShare},"reasons":[${reasons}]}`,
  );
  return [
    `{"playerId":"${playerId}","handle":${JSON.stringify(handle)},"side":"${sideOfTarget(target)}","target":"${target}"`,
    `"answeredBy":"${answeredBy}","words":${JSON.stringify(words)},"calls":[${told.join()}]`,
    `"restsOn":${JSON.stringify(restsOn)},"known":${rests.known},"games":${rests.games}`,
    `"warning":${JSON.stringify(warning)},"plays":${plays},"caution":${JSON.stringify(LIVE_CAUTION)}}`,
  ].join();
}

/** One line for a screen beside the game. */
export function nextCallLine({ words }: NextCallAnswer): string {
  return `${words}. ${LIVE_CAUTION}\n`.replace(/\n(?=.)/g, ' ');
}

function warningOf(rests: EvidenceStep, handle: string): string | null {
  if (rests.of !== 'player') return `nothing charted of ${handle} here: this is what the field does`;
  if (rests.known >= FEWEST_TO_REST_ON) return null;
  return `${rests.known === 1 ? 'one play' : `${rests.known} plays`}: do not rest a call on it`;
}

function shareWords(count: number, known: number): string {
  return known < FEWEST_FOR_PERCENT ? `${count} of ${known}` : `${count} of ${known} (${percent(count / known)})`;
}

function wordOf(name: CodeFieldName, { facts }: GameSoFar, vocabulary: Vocabulary): string {
  const { codes, meanings } = facts.plays.code(name);
  const meaning = meanings[codes[facts.plays.count - 1] ?? -1] ?? -1;
  const field = playField(name);
  if (field?.type === 'choice') return field.choices[meaning] ?? '';
  return vocabulary.byId(meaning)?.name ?? '';
}
