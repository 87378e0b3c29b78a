import type { HabitClaim, PredictedTell } from '../reports/habits/habits-shape.js';
import type { RoundReport } from '../reports/round-report-shape.js';
import { shareEstimate } from '../tendencies/decisions/counted-share.js';
import { readCuePairs, readCues, type Cue } from '../tendencies/tells/cues.js';
import { readTold } from '../tendencies/tells/told-dimensions.js';
import type { Side } from '../tendencies/tendency-plays.js';
import { opponentSnaps, type MatchPlays } from './match-plays.js';
import type { JudgedTell } from './report-card-shape.js';
import { tellVerdictWords } from './words.js';

/**
 * What became of the tells that a report listed. A tell held where the interval of what was seen with the cue leaves out
 * the share without it, on the side that was foretold; it broke where the interval leaves out what was foretold with it
 * instead. Anything between is too few plays to say, which is the usual end of one game.
 *
 * @param confidence - of the Wilson intervals, in (0, 1)
 */
export function judgeTells(report: RoundReport, match: MatchPlays, confidence: number): JudgedTell[] {
  const claims = report.habits?.givesAway.flatMap((topic) => topic.claims) ?? [];
  return (['offense', 'defense'] as const).flatMap((side) => {
    const listed = claims.flatMap((claim) =>
      claim.side === side && claim.tell !== undefined ? [{ claim, tell: claim.tell }] : [],
    );
    if (listed.length === 0) return [];
    const seen = cuesOf(match, side);
    const snaps = opponentSnaps(match, side);
    return listed.map(({ claim, tell }) => judged(claim, tell, countTell(tell, seen, snaps, match), confidence));
  });
}

function cuesOf({ facts, vocabulary }: MatchPlays, side: Side): readonly Cue[] {
  const single = readCues(side, facts, vocabulary);
  return [...single, ...readCuePairs(side, single)];
}

interface Counted {
  readonly count: number;
  readonly known: number;
}

function countTell(tell: PredictedTell, cues: readonly Cue[], snaps: Int32Array, match: MatchPlays): Counted {
  const cue = cues.find(
    ({ names }) => names.length === tell.cue.length && names.every((name, at) => name === tell.cue[at]),
  );
  const value = cue?.values.findIndex(({ key }) => key === tell.cueKey) ?? -1;
  if (cue === undefined || value < 0) return { count: 0, known: 0 };
  const told = readTold(tell.dimension, match.facts, match.vocabulary);
  const call = told.values.findIndex(({ key }) => key === tell.callKey);
  const withCue = snaps.filter((play) => cue.codes[play] === value && (told.codes[play] ?? -1) >= 0);
  return { count: withCue.filter((play) => told.codes[play] === call).length, known: withCue.length };
}

function judged(claim: HabitClaim, tell: PredictedTell, { count, known }: Counted, confidence: number): JudgedTell {
  const { id, side, label } = claim;
  const estimate = shareEstimate({ count, known }, confidence);
  const interval = estimate === null ? null : { lower: estimate.interval.lower, upper: estimate.interval.upper };
  const predicted = { count: claim.count, known: claim.known };
  const without = { count: tell.countWithout, known: tell.playsWithout };
  const of = {
    ...{ id, side, label, direction: tell.direction, predicted, without, count, known, interval },
    outcome: outcomeOf(tell.direction, interval, predicted, without),
  };
  return { ...of, words: tellVerdictWords(of) };
}

function outcomeOf(
  direction: 'more' | 'less',
  interval: JudgedTell['interval'],
  predicted: Counted,
  without: Counted,
): JudgedTell['outcome'] {
  if (interval === null) return 'cue not seen';
  const [foretold, usual] = [shareOf(predicted), shareOf(without)];
  const held = direction === 'more' ? interval.lower > usual : interval.upper < usual;
  if (held) return 'held';
  const broke = direction === 'more' ? interval.upper < foretold : interval.lower > foretold;
  return broke ? 'broke' : 'too few to say';
}

function shareOf({ count, known }: Counted): number {
  return known === 0 ? 0 : count / known;
}
