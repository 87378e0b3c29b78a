import type { Cue, CueValue } from '../tells/cues.js';
import type { Lead } from '../tells/leads.js';
import type { CueAndCall, CueSeconds, Tell, TellsTested } from '../tells/tell-shape.js';
import { callVerb, callWords } from './call-verbs.js';
import { counted, withCounts } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/**
 * A tell in one sentence: `motion jet: run 22 of 33 with it, 14 of 180 without; seen in 7 games; leaves 3 s`.
 *
 * @param voice - to whom
 */
export function tellWords(tell: Tell, voice: Voice): string {
  return sentence({ ...claim(tell), notes: [...seenNotes(tell), ...restatedNotes(tell)] }, voice);
}

/** A lead in one sentence, which never ends without saying that it is not proven. */
export function leadWords(lead: Lead, voice: Voice): string {
  const { name, plays, count, playsWithout, countWithout } = lead.parentSituation;
  const mostly = `most of it on ${name}: ${count} of ${plays} with it, ${countWithout} of ${playsWithout} without`;
  return sentence({ ...claim(lead), notes: [...seenNotes(lead), mostly, settleWords(lead.snapsToSettle)] }, voice);
}

function settleWords(snaps: number | null): string {
  return snaps === null
    ? 'not proven, and more snaps like these would not settle it'
    : `not proven, about ${snaps} more ${snaps === 1 ? 'snap' : 'snaps'} would settle it`;
}

function claim(of: CueAndCall): { readonly scout: string; readonly self: string } {
  const { count, plays, countWithout, playsWithout, dimension, call } = of;
  const cue = cueWords(of.cue, of.cueValue);
  const only = of.direction === 'less' ? 'only ' : '';
  const counts = `${only}${count} of ${plays} with it, ${countWithout} of ${playsWithout} without`;
  return {
    scout: `${cue}: ${withCounts(callWords(dimension, call.label), counts)}`,
    self: `${callVerb(dimension, call.label)} on ${only}${count} of ${plays} snaps with ${cue}, on ${countWithout} of ${playsWithout} without`,
  };
}

/** `motion jet`; a value that names its cue already stands alone: `seven in the box`. */
export function cueWords({ names, label }: Pick<Cue, 'names' | 'label'>, value: CueValue): string {
  // The label of a pair's value names the second cue itself.
  const first = names.length > 1 ? (label.split(' and ')[0] ?? label) : label;
  return value.label.includes(first) ? value.label : `${first} ${value.label}`;
}

function seenNotes({ gamesSeen, oneGameOnly, seconds }: CueAndCall): string[] {
  const where = oneGameOnly ? "seen in one game only, so it may be that game's plan" : `seen in ${gamesSeen} games`;
  return [where, leavesWords(seconds)];
}

function leavesWords(seconds: CueSeconds | null): string {
  if (seconds === null) return 'the time that it leaves is not charted';
  return `leaves ${seconds.atLeast ? 'at least ' : ''}${seconds.median} s`;
}

function restatedNotes({ restates }: Tell): string[] {
  return restates ? ['says again what one of its two parts says alone'] : [];
}

/** Few plays carry a tell; this many are where planted ones of 20 points are found in most leagues. */
const PLAYS_OF_A_TELL = 1_000;

/** Whether a search that finds nothing says that there is little to find. */
export function mayShowTells({ plays, calls }: TellsTested): boolean {
  return calls > 0 && plays >= PLAYS_OF_A_TELL;
}

/** What a search for tells rests on, and what no tell means there. */
export function tellsRestOn(tested: TellsTested, found: number): string {
  const { plays, games, withoutSituation, calls } = tested;
  if (plays + withoutSituation === 0)
    return 'no charted play fits: nothing is known, which is not the same as no tells';
  const words = [`rests on ${counted(plays, 'play')} of ${counted(games, 'game')}`];
  if (withoutSituation > 0)
    words.push(`${counted(withoutSituation, 'play')} more of unknown down or distance left out`);
  if (calls === 0) words.push('no cue was seen often enough to be tested');
  else words.push(`${counted(calls, 'call')} tested against what was seen before the snap`);
  if (found === 0 && calls > 0) {
    words.push(mayShowTells(tested) ? 'no tell' : 'no tell, which so few plays seldom show');
  }
  if (games === 1) words.push('one game only: what looks like a habit may be its plan');
  return words.join('; ');
}
