import type { PlayColumns } from '#domain/charting/play-columns.js';
import { playField, type CodeFieldName } from '#domain/charting/play-fields.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import type { GameSoFar } from '#domain/forecast/live/game-in-progress.js';
import type { EvidenceStep, NextCall } from '#domain/forecast/live/next-call.js';
import { sideOfTarget } from '#domain/forecast/targets.js';
import { FEWEST_FOR_PERCENT, percent } from '#domain/tendencies/words/count-words.js';
import { playReferences, type PlayReferenceResponse } from '../../common/play-reference.dto.js';
import type { NextCallReasonResponse, NextCallResponse } from './next-call.dto.js';
import type { NextCallQuestion } from './read-question.js';

export const LIVE_CAUTION = "The event's own rules decide whether aids may be used during play.";
/** Fewer plays of the player than this carry no call by themselves; common practice, no source. */
const FEWEST_TO_REST_ON = 5;
const MOST_CLIPS = 20;

export function nextCallResponse(
  who: { readonly playerId: string; readonly handle: string },
  { top }: NextCallQuestion,
  { names, target, facts }: CallArchive,
  game: GameSoFar,
  { probabilities, steps }: NextCall,
  vocabulary: Vocabulary,
): NextCallResponse {
  const { handle } = who;
  const labelOf = (step: EvidenceStep): string => stepLabel(step, handle, (name) => wordOf(name, game, vocabulary));
  const told = steps.map((step) => toldStep(step, handle, labelOf));
  const narrowest =
    told.findLast(({ step }) => step.of === 'player') ?? told.findLast(({ step }) => step.of === 'field');
  const order = [...names.keys()].sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0) || a - b);
  const calls = order.slice(0, top).map((k) => ({
    call: names[k] ?? '',
    probability: rounded(probabilities[k]),
    fieldShare: rounded(steps[0]?.shares[k]),
    reasons: told.map((of) => reason(of, k)),
  }));
  const { label: restsOn = '', step: rests = null } = narrowest ?? {};
  const known = rests?.known ?? 0;
  const warning = warningOf(rests, handle);
  const likely = calls.map(({ call, probability }, place) => {
    const count = rests?.counts[order[place] ?? 0] ?? 0;
    return `${call} ${percent(probability)} (${count} of ${known})`;
  });
  return {
    ...who,
    side: sideOfTarget(target),
    target,
    answeredBy: steps.some(({ of }) => of === 'together') ? 'model' : 'counts',
    words: `${restsOn}: ${likely.join(', ')}${warning === null ? '' : `; ${warning}`}`,
    calls,
    ...{ restsOn, known, games: rests?.games ?? 0, warning },
    plays: narrowest === undefined ? [] : playsOf(narrowest, facts.plays),
    caution: LIVE_CAUTION,
  };
}

/** A step in words. */
interface ToldStep {
  readonly step: EvidenceStep;
  readonly handle: string;
  readonly label: string;
  /** By class, as they were asked for. */
  readonly reasons: Map<number, NextCallReasonResponse>;
  plays: PlayReferenceResponse[] | null;
}

/** The steps that an archive is counted for come back with every question about the same look. */
const TOLD = new WeakMap<EvidenceStep, ToldStep>();

function toldStep(step: EvidenceStep, handle: string, labelOf: (step: EvidenceStep) => string): ToldStep {
  const known = comesBack(step.of) ? TOLD.get(step) : undefined;
  // Players are renamed without the archive being another.
  if (known?.handle === handle) return known;
  const told = { step, handle, label: labelOf(step), reasons: new Map<number, NextCallReasonResponse>(), plays: null };
  if (comesBack(step.of)) TOLD.set(step, told);
  return told;
}

/** What is worked out for each question alone is not to be kept: a weak map pays for every short life in it. */
function comesBack(of: string): boolean {
  return of === 'field' || of === 'player';
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

function reason({ step, label, reasons }: ToldStep, k: number): NextCallReasonResponse {
  const known = reasons.get(k);
  if (known !== undefined) return known;
  const count = step.counts[k] ?? 0;
  const probability = rounded(step.shares[k]);
  const counted = { of: step.of, count, known: step.known, games: step.games, probability };
  const share = step.of === 'together' ? percent(probability) : shareWords(count, step.known);
  const told = { words: `${label}: ${share}`, ...counted };
  reasons.set(k, told);
  return told;
}

function playsOf(told: ToldStep, plays: PlayColumns): PlayReferenceResponse[] {
  const { evidence } = told.step;
  return (told.plays ??= evidence === null ? [] : playReferences(evidence, plays, MOST_CLIPS));
}

/** Six digits are more than any archive tells. */
function rounded(share: number | undefined): number {
  return Math.round((share ?? 0) * 1e6) / 1e6;
}

/** As JSON; what an archive was counted for is written once, since it comes back with every question about the same look. */
export function nextCallJson({ calls, plays, ...rest }: NextCallResponse): string {
  const written = calls.map(
    ({ reasons, ...call }) =>
      `${opened(call)},"reasons":[${reasons.map((told) => (comesBack(told.of) ? writtenOnce(told) : JSON.stringify(told))).join(',')}]}`,
  );
  return `${opened(rest)},"calls":[${written.join(',')}],"plays":${writtenOnce(plays)}}`;
}

/** An object with at least one member, to which more are to be added. */
function opened(value: object): string {
  return JSON.stringify(value).slice(0, -1);
}

const WRITTEN = new WeakMap<object, string>();

function writtenOnce(value: object): string {
  let json = WRITTEN.get(value);
  if (json === undefined) WRITTEN.set(value, (json = JSON.stringify(value)));
  return json;
}

/** One line for a screen beside the game. */
export function nextCallLine({ words, caution }: NextCallResponse): string {
  return `${words}. ${caution}\n`.replace(/\n(?=.)/g, ' ');
}

function warningOf(narrowest: EvidenceStep | null, handle: string): string | null {
  if (narrowest?.of !== 'player') return `nothing charted of ${handle} here: this is what the field does`;
  if (narrowest.known >= FEWEST_TO_REST_ON) return null;
  return `${narrowest.known === 1 ? 'one play' : `${narrowest.known} plays`}: do not rest a call on it`;
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
