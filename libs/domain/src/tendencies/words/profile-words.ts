import type { DimensionProfile, SituationProfile } from '../profile-shape.js';
import { ALL_SNAPS } from '../situation-keys.js';
import type { ValueShare } from '../value-share.js';
import { callVerb, callWords } from './call-verbs.js';
import { knownNotes, shareWords, withCounts } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/**
 * A share of a profile in one sentence: `3rd and 7-10: pass 9 of 12, 56-89 %, field 81 %; known on 12 of 15`.
 *
 * @param cues - what every play of the profile had, as it was asked for; said behind the situation
 */
export function profileWords(
  situation: Pick<SituationProfile, 'situation' | 'snaps'>,
  { dimension, known }: Pick<DimensionProfile, 'dimension' | 'known'>,
  { value, count, raw, field }: Pick<ValueShare, 'value' | 'count' | 'raw' | 'field'>,
  cues: readonly string[],
  voice: Voice,
): string {
  const share = shareWords({ count, known, interval: raw.interval, field });
  const from = cues.map(cueWords).join('');
  const on = situation.situation === ALL_SNAPS ? 'all snaps' : `on ${situation.situation}`;
  return sentence(
    {
      scout: `${situation.situation}${from}: ${withCounts(callWords(dimension, value.label), share)}`,
      self: `${withCounts(callVerb(dimension, value.label), share)}, ${on}${from}`,
      notes: knownNotes(known, situation.snaps),
    },
    voice,
  );
}

function cueWords(cue: string): string {
  const [field = '', ...value] = cue.split(':');
  return ` ${field.trim() === 'formation' ? 'from' : `with ${field.trim()}`} ${value.join(':').trim()}`;
}
