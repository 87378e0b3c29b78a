import { playField, type CodeFieldName } from '#domain/charting/play-fields.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import type { EvidenceStep, GameSoFar, NextCall } from '#domain/forecast/live/next-call.js';
import { sideOfTarget } from '#domain/forecast/targets.js';
import { FEWEST_FOR_PERCENT, percent } from '#domain/tendencies/words/count-words.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type { NextCallInput, NextCallResponse } from './next-call.dto.js';

export const LIVE_CAUTION = "The event's own rules decide whether aids may be used during play.";
const TOP = 3;
/** Fewer plays of the player than this carry no call by themselves; common practice, no source. */
const FEWEST_TO_REST_ON = 5;
const MOST_CLIPS = 20;

export function nextCallResponse(
  who: { readonly playerId: string; readonly handle: string },
  { top = TOP }: NextCallInput,
  { names, target, facts }: CallArchive,
  game: GameSoFar,
  { probabilities, steps }: NextCall,
  vocabulary: Vocabulary,
): NextCallResponse {
  const cueWord = (name: CodeFieldName): string => `${name} ${wordOf(name, game, vocabulary)}`;
  const labelOf = ({ of, situation, cues, known }: EvidenceStep): string => {
    if (of === 'together') return `all that is known weighed at once, as ${known} calls taught`;
    const whose = of === 'field' ? 'field' : of === 'today' ? 'this game' : who.handle;
    const on = [...(situation === null ? [] : [situation]), ...cues.map((name) => cueWord(name))];
    return on.length === 0 ? `${whose}, all calls` : `${whose} on ${on.join(', ')}`;
  };
  const labels = steps.map(labelOf);
  const narrowest = steps.findLast(({ of }) => of === 'player') ?? steps.findLast(({ of }) => of === 'field');
  const order = [...names.keys()].sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0) || a - b);
  const calls = order.slice(0, top).map((k) => ({
    call: names[k] ?? '',
    probability: probabilities[k] ?? 0,
    fieldShare: steps[0]?.shares[k] ?? 0,
    reasons: steps.map((step, place) => {
      const count = step.counts[k] ?? 0;
      const counted = { of: step.of, count, known: step.known, games: step.games, probability: step.shares[k] ?? 0 };
      const share = step.of === 'together' ? percent(counted.probability) : shareWords(count, step.known);
      return { words: `${labels[place] ?? ''}: ${share}`, ...counted };
    }),
  }));
  const restsOn = narrowest === undefined ? '' : labelOf(narrowest);
  const known = narrowest?.known ?? 0;
  const warning = warningOf(narrowest, who.handle);
  const likely = calls.map(({ call, probability }, place) => {
    const count = narrowest?.counts[order[place] ?? 0] ?? 0;
    return `${call} ${percent(probability)} (${count} of ${known})`;
  });
  return {
    ...who,
    side: sideOfTarget(target),
    target,
    answeredBy: steps.some(({ of }) => of === 'together') ? 'model' : 'counts',
    words: `${restsOn}: ${likely.join(', ')}${warning === null ? '' : `; ${warning}`}`,
    calls,
    ...{ restsOn, known, games: narrowest?.games ?? 0, warning },
    plays: narrowest?.evidence == null ? [] : playReferences(narrowest.evidence, facts.plays, MOST_CLIPS),
    caution: LIVE_CAUTION,
  };
}

/** One line for a screen beside the game. */
export function nextCallLine({ words, caution }: NextCallResponse): string {
  return `${words}. ${caution}\n`.replace(/\n(?=.)/g, ' ');
}

function warningOf(narrowest: EvidenceStep | undefined, handle: string): string | null {
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
