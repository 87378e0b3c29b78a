export interface VttCue {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

const TIME = '(?:(\\d{2,}):)?([0-5]\\d):([0-5]\\d)\\.(\\d{3})';
const TIMINGS = new RegExp(`^${TIME} --> ${TIME}$`);

/**
 * The cues of a WebVTT file, read as strictly as its syntax is written: signature, blank lines between blocks, an
 * identifier without an arrow, times that end after they begin and never go back, text without markup.
 *
 * @throws Error naming the rule that is broken
 * @see W3C WebVTT: The Web Video Text Tracks Format, section 4.1
 */
export function vttCues(file: string): VttCue[] {
  const [signature, ...blocks] = file.trimEnd().split(/\n{2,}/);
  if (signature !== 'WEBVTT') throw new Error('the file does not begin with its signature');
  const cues = blocks.map(cueOf);
  for (const [at, cue] of cues.entries()) {
    if (cue.to <= cue.from) throw new Error(`cue ${cue.id} ends before it begins`);
    if (cue.from < (cues[at - 1]?.from ?? 0)) throw new Error(`cue ${cue.id} begins before the one above it`);
  }
  return cues;
}

function cueOf(block: string): VttCue {
  const [id = '', timings = '', ...lines] = block.split('\n');
  const text = lines.join('\n');
  if (id === '' || id.includes('-->')) throw new Error(`not an identifier: ${id}`);
  const parts = TIMINGS.exec(timings);
  if (parts === null) throw new Error(`no timings: ${timings}`);
  if (text === '' || text.includes('-->')) throw new Error(`not a text: ${text}`);
  if (/<|&(?!(amp|lt|gt|lrm|rlm|nbsp);)/.test(text)) throw new Error(`markup in a text: ${text}`);
  const [, ...numbers] = parts.map((part) => Number(part));
  return { id, from: secondsOf(numbers.slice(0, 4)), to: secondsOf(numbers.slice(4)), text };
}

function secondsOf([hours = 0, minutes = 0, seconds = 0, thousandths = 0]: readonly number[]): number {
  return (Number.isNaN(hours) ? 0 : hours) * 3600 + minutes * 60 + seconds + thousandths / 1000;
}
