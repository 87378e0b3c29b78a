import { counted } from '../tendencies/words/count-words.js';
import { byTurns } from './by-turns.js';
import { resultWords, shareWords, valueWords } from './claim-words.js';
import type { FilmPick, ResultClaim, RoundReport, StandsOut } from './round-report-shape.js';

export const MOST_CANDIDATES = 3;
const MOST_FACTS = 5;
const MOST_OPENINGS = 3;

/** Shares of the time to prepare, in proportion to the odds. */
export function preparationShares(probabilities: readonly number[]): number[] {
  const total = probabilities.reduce((sum, probability) => sum + probability, 0);
  return probabilities.map((probability) => (total === 0 ? 1 / probabilities.length : probability / total));
}

/** What of a report fits into a few minutes. */
export interface OpponentBrief {
  readonly facts: readonly string[];
  /** In the order in which to watch them. */
  readonly clips: readonly FilmPick[];
  /** Where the opponent was weak: what to have ready for it, with the ball and without it by turns; of no menu. */
  readonly openings: readonly string[];
  readonly notKnown: readonly string[];
}

/**
 * The shortest form of a report: what stands out (established first), then what is done most; never without counts.
 *
 * @param report - of one opponent
 */
export function opponentBrief({ offense, defense, film, thinSituations, sample }: RoundReport): OpponentBrief {
  const established = [...offense.standsOut, ...defense.standsOut].filter((one) => one.established);
  const leads = [...offense.standsOut, ...defense.standsOut].filter((one) => !one.established);
  const most = [offense, defense].flatMap(({ side, mostUsed }) =>
    mostUsed.slice(0, 2).map((claim) => `${side}, all snaps: ${valueWords(claim)}, ${shareWords(claim)}`),
  );
  const facts = [...established.map(standsOutWords), ...most, ...leads.map(standsOutWords)].slice(0, MOST_FACTS);
  const openings = byTurns([defense.weak.map(attackWords), offense.weak.map(defendWords)]).slice(0, MOST_OPENINGS);
  const notKnown = (['offense', 'defense'] as const).flatMap((side) => [
    ...list(
      `${side}, charted on less than half of the snaps`,
      sample.knownOn
        .filter((field) => field.side === side && 2 * field.known < field.snaps)
        .map(({ label, known, snaps }) => `${label} ${known} of ${snaps}`),
    ),
    ...list(
      `${side}, hardly seen`,
      thinSituations
        .filter((situation) => situation.side === side)
        .map(({ label, snaps }) => `${label} (${counted(snaps, 'snap')})`),
    ),
  ]);
  return {
    facts,
    clips: film,
    openings,
    notKnown: sample.games === 0 ? ['nothing of this player is charted'] : notKnown,
  };
}

/** In one line, since whoever has minutes reads no column. */
function list(what: string, items: readonly string[]): string[] {
  return items.length === 0 ? [] : [`${what}: ${items.join(', ')}`];
}

function standsOutWords({ claim, direction, established }: StandsOut): string {
  const lead = established ? '' : ' (a lead, not proven)';
  return `${claim.side}, ${claim.situation}: ${valueWords(claim)} ${direction} often than the field, ${shareWords(claim)}${lead}`;
}

/** Nobody chooses what the other side plays: a call is made ready for it. A situation is one to play for. */
function attackWords(claim: ResultClaim): string {
  const [what, results] = [valueWords(claim), `offenses succeeded on ${resultWords(claim)}`];
  return claim.dimensionLabel === null
    ? `with the ball, play for ${claim.situation}: ${results}`
    : `with the ball, have a call ready against ${what}: ${results}`;
}

function defendWords(claim: ResultClaim): string {
  const [what, results] = [valueWords(claim), `they succeeded on ${resultWords(claim)}`];
  return claim.dimensionLabel === null
    ? `without it, play for ${claim.situation}: ${results}`
    : `without it, let them have ${what}: ${results}`;
}

/** One stretch of the time that is left. */
export interface PlanStep {
  readonly fromMinute: number;
  readonly minutes: number;
  /** Place of the candidate it is about; null: the changes to the sheet, at the end. */
  readonly candidate: number | null;
  readonly what: 'read the facts' | 'watch the clips' | 'decide the changes';
  /** How many clips, where it is about clips. */
  readonly clips: number;
}

export const MOST_CLIPS = 10;
/** A clip with what is read beside it, and a fact; common practice, no source. */
const MINUTES_A_CLIP = 1;
const MINUTES_A_FACT = 0.4;
const LAST_WORD = 0.15;

/**
 * What to do with the minutes that are left: the last of them for the changes, the others shared out by the odds; of each
 * share the facts first, then as many clips as fit, ten in all.
 *
 * @param candidates - share of the preparation, facts and clips of each
 * @param minutes    - > 0
 */
export function forkPlan(
  candidates: readonly { readonly share: number; readonly facts: number; readonly clips: number }[],
  minutes: number,
): PlanStep[] {
  const forChanges = LAST_WORD * minutes;
  const steps: PlanStep[] = [];
  let from = 0;
  let clipsLeft = MOST_CLIPS;
  for (const [candidate, { share, facts, clips }] of candidates.entries()) {
    const own = share * (minutes - forChanges);
    const reading = Math.min(own, facts * MINUTES_A_FACT);
    const watched = Math.max(0, Math.min(clips, clipsLeft, Math.floor((own - reading) / MINUTES_A_CLIP)));
    clipsLeft -= watched;
    if (facts > 0) {
      steps.push({ fromMinute: from, minutes: reading, candidate, what: 'read the facts', clips: 0 });
      from += reading;
    }
    if (watched > 0) {
      const watching = watched * MINUTES_A_CLIP;
      steps.push({ fromMinute: from, minutes: watching, candidate, what: 'watch the clips', clips: watched });
      from += watching;
    }
  }
  steps.push({ fromMinute: from, minutes: minutes - from, candidate: null, what: 'decide the changes', clips: 0 });
  return steps;
}
