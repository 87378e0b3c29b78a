import { oneLine } from './plain-words.js';
import type { FilmEntry } from './report-film.js';

/** From the line-up to the end of nearly every play; where a play ends is not charted. */
const CUE_SECONDS = 15;

/**
 * The plays to watch of one game as a WebVTT track: a player of videos that loads it shows what to look at, when, and
 * lets one jump from cue to cue. In the order of the video, as the format asks; the cue's name is its rank.
 *
 * @param entries - of one video
 * @see W3C WebVTT: The Web Video Text Tracks Format, section 4 (syntax)
 */
export function filmVtt(entries: readonly FilmEntry[]): string {
  const cues = [...entries]
    .sort((a, b) => a.second - b.second || a.rank - b.rank)
    .map(
      ({ rank, second, playNumber, reason }) =>
        `${rank}\n${timestamp(second)} --> ${timestamp(second + CUE_SECONDS)}\n${cueText(`Play ${playNumber}: ${reason}`)}\n`,
    );
  return ['WEBVTT\n', ...cues].join('\n');
}

function timestamp(second: number): string {
  const pad = (value: number): string => `${value}`.padStart(2, '0');
  return `${pad(Math.floor(second / 3600))}:${pad(Math.floor((second % 3600) / 60))}:${pad(second % 60)}.000`;
}

/** An empty line would end the cue, an arrow would begin its times, and markup would be read as such. */
function cueText(text: string): string {
  return oneLine(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
