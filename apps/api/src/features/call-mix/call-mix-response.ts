import type { DialStop } from '#domain/answers/call-mix.js';
import type { SituationMix } from '#domain/answers/situation-mix.js';
import { dialWords } from '#domain/answers/words.js';
import { interval, rounded } from '../../common/figures.js';
import type { DialStopResponse, MixShareResponse, SituationMixResponse } from './call-mix.dto.js';

export function situationMixResponse(of: SituationMix, confidence: number): SituationMixResponse {
  const { situation, theirs, ours, installed, payoffs, mix } = of;
  return {
    situation,
    opponentPlays: theirs.plays,
    installed,
    value: rounded(mix.equilibrium.value),
    gap: mix.equilibrium.gap,
    theirs: theirs.options.map(({ label }, place) => ({
      label,
      count: theirs.counts[place] ?? 0,
      share: rounded(mix.theirShares[place] ?? 0),
      equilibriumShare: rounded(mix.equilibrium.columns[place] ?? 0),
    })),
    ours: ours.map(({ label, menu, byItsLike }, place) => ({
      label,
      menuCallId: menu?.id ?? null,
      rehearsed: menu?.rehearsed ?? false,
      byItsLike,
      gains: (payoffs[place] ?? []).map(rounded),
    })),
    equilibrium: shares(of, mix.equilibrium.rows),
    bestResponse: ours[mix.bestResponse]?.label ?? '',
    dial: mix.dial.map((stop) => dialStopResponse(of, stop, confidence)),
    dominated: mix.dominated.map(({ row, by, margin }) => ({
      label: ours[row]?.label ?? '',
      by: shares(of, by),
      margin: rounded(margin),
    })),
  };
}

function dialStopResponse(of: SituationMix, stop: DialStop, confidence: number): DialStopResponse {
  const { lean, ifTheyStay, ifTheyAdjust } = stop;
  return {
    words: dialWords(of, stop, confidence),
    lean: rounded(lean),
    mix: shares(of, stop.shares),
    ifTheyStay: { mean: rounded(ifTheyStay.mean), interval: interval(ifTheyStay.interval) },
    ifTheyAdjust: {
      mean: rounded(ifTheyAdjust.mean),
      label: of.theirs.options[ifTheyAdjust.call]?.label ?? '',
      guarantee: rounded(ifTheyAdjust.guarantee),
    },
  };
}

/** What rounds to nothing is left out. */
function shares({ ours }: SituationMix, of: readonly number[]): MixShareResponse[] {
  return of
    .map((share, place) => ({ label: ours[place]?.label ?? '', share: rounded(share) }))
    .filter(({ share }) => share > 0)
    .sort((one, other) => other.share - one.share);
}
