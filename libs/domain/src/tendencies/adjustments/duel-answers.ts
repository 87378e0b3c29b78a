import { benjaminiHochberg } from '../../statistics/benjamini-hochberg.js';
import type { Interval } from '../../statistics/interval.js';
import { isTelling, stratifiedExactTest } from '../../statistics/stratified-exact-test.js';
import { Evidence } from '../evidence.js';
import type { Results } from '../results-shape.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { countedShare, differenceOf, type Counted, type CountedShare } from '../decisions/counted-share.js';
import { resultsOfPlays } from '../decisions/results-of-plays.js';
import { tablesByStratum } from '../decisions/stratified-p-value.js';
import { situationInGame } from '../sequences/call-pairs.js';
import { readDuels, type DuelStep, type Duels } from './duel-steps.js';

/** What a player does once the opponent has shown something before the snap. */
export interface DuelAnswer {
  readonly shown: DuelStep;
  /** The player's own move; null for none at all after what was shown. */
  readonly answer: DuelStep | null;
  /** Plays on which the answer came after what was shown, of those on which it was shown; field: the other players'. */
  readonly share: CountedShare;
  /** The same move on snaps on which it was not shown; for no answer, snaps without any move of the player's. */
  readonly anyway: Counted;
  /** Share less that anyway, Newcombe's interval; null where either is not known. */
  readonly difference: Interval | null;
  /**
   * One-sided exact p-value that the answer comes more often than anyway, inside situation and game; null where that
   * leaves nothing to compare, or where too few plays show the move or the answer to ask.
   */
  readonly pValue: number | null;
  /** Whether it stands once all answers asked about are taken together (Benjamini-Hochberg). */
  readonly established: boolean;
  /** Of the plays on which this answer came. */
  readonly results: Results;
}

/**
 * False discovery rate at which answers are said to stand. In leagues without answers every find is false, and their
 * rate is about the level itself: five percent keeps the upper 95 % Monte Carlo bound of reports with a false one below
 * 12 %, as for tells.
 */
export const DEFAULT_ANSWER_LEVEL = 0.05;

/** Filter by margins only, so that it cannot favour what stands out. Common practice, no source. */
const FEWEST_SHOWN = 5;
const FEWEST_ANSWERS = 3;

/**
 * After an opponent shows X, how often does this player answer with Y? Y counts wherever it comes after the first X; what
 * came before it was no answer. Only moves of a known side take part, and only counting snaps whose duel is known.
 *
 * @param asked - any plays of the player
 * @param side  - the player's side of the ball in these plays; what is shown is the other side's
 * @param level - false discovery rate in (0, 1) over the answers asked about
 * @returns by what was shown, most often shown first, then by answers, most frequent first
 * @throws DomainError `stats.invalid_probability`
 * @see Birch (1964), J. R. Stat. Soc. B 26, 313–324; Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function duelAnswers(asked: AskedPlays, side: Side, level: number): DuelAnswer[] {
  const { facts, field, player, vocabulary, confidence } = asked;
  const own = knownDuels(facts, allPlaces(facts), readDuels(facts, vocabulary));
  const others =
    field === null ? null : knownDuels(field.facts, othersPlaces(field, player), readDuels(field.facts, vocabulary));
  const mine = own.duels.steps.filter(({ by }) => by === side);
  const theirs = own.duels.steps.filter(({ by }) => by !== null && by !== side);

  const found = theirs.flatMap((shown) =>
    [...mine, null].map((answer) => {
      const question: Question = { shown: shown.termId, answer: answer?.termId ?? null, side };
      return {
        shown,
        answer,
        own: countDuels(own, question),
        others: others === null ? null : countDuels(others, question),
      };
    }),
  );
  const seen = found.filter(
    ({ own: counts }) => counts.after.known > 0 && (counts.after.count > 0 || counts.anyway.count > 0),
  );
  const pValues = seen.map(({ answer, own: counts }) => (answer === null ? null : pValueOf(own, counts)));
  const tested = pValues.filter((pValue) => pValue !== null);
  const { rejected } = benjaminiHochberg(tested, level);
  let test = 0;
  const judged = seen.map((row, place) => {
    const established = pValues[place] !== null && rejected[test++] === true;
    return { ...row, pValue: pValues[place] ?? null, established };
  });
  return judged
    .map(({ shown, answer, own: counts, others: field, pValue, established }): DuelAnswer => {
      const places = own.places.filter((play) => counts.answerOf[play] === 1);
      const evidence = new Evidence(facts.plays, own.places, (play) => counts.answerOf[play] === 1);
      return {
        shown,
        answer,
        share: countedShare(counts.after, field?.after ?? null, confidence, evidence),
        anyway: counts.anyway,
        difference: differenceOf(counts.after, counts.anyway, confidence),
        pValue,
        established,
        results: resultsOfPlays(facts, places, null, confidence),
      };
    })
    .sort(
      (first, second) =>
        second.share.known - first.share.known ||
        first.shown.termId - second.shown.termId ||
        second.share.count - first.share.count,
    );
}

interface KnownDuels {
  readonly facts: TendencyPlays;
  readonly duels: Duels;
  readonly places: Int32Array;
}

interface Question {
  readonly shown: number;
  readonly answer: number | null;
  readonly side: Side;
}

interface DuelCounts {
  /** Where it was shown, and where it was not. */
  readonly after: Counted;
  readonly anyway: Counted;
  /** 1 where it was shown and answered so, 0 where it was shown and not, -1 elsewhere. */
  readonly answerOf: Int8Array;
  /** 1 where the answer's move came without anything shown, 0 where it did not, -1 elsewhere. */
  readonly anywayOf: Int8Array;
}

function knownDuels(facts: TendencyPlays, places: Int32Array, duels: Duels): KnownDuels {
  return { facts, duels, places: places.filter((play) => facts.counts[play] === 1 && duels.of(play) !== null) };
}

function countDuels({ facts, duels, places }: KnownDuels, { shown, answer, side }: Question): DuelCounts {
  const shownCode = duels.steps.findIndex(({ termId }) => termId === shown);
  const isAnswer = duels.steps.map(({ termId, by }) => (answer === null ? by === side : termId === answer));
  const answerOf = new Int8Array(facts.plays.count).fill(-1);
  const anywayOf = new Int8Array(facts.plays.count).fill(-1);
  const after = { count: 0, known: 0 };
  const anyway = { count: 0, known: 0 };
  for (const play of places) {
    const moves = duels.of(play) ?? new Int16Array(0);
    const at = shownCode < 0 ? -1 : moves.indexOf(shownCode);
    const answers = moves.subarray(at + 1).some((code) => isAnswer[code] === true);
    const yes = answers === (answer !== null) ? 1 : 0;
    const counts = at >= 0 ? after : anyway;
    counts.known += 1;
    counts.count += yes;
    (at >= 0 ? answerOf : anywayOf)[play] = yes;
  }
  return { after, anyway, answerOf, anywayOf };
}

function pValueOf({ facts, places }: KnownDuels, { after, anyway, answerOf, anywayOf }: DuelCounts): number | null {
  if (after.known < FEWEST_SHOWN || after.count + anyway.count < FEWEST_ANSWERS) return null;
  const tables = tablesByStratum(
    places,
    (play) => situationInGame(facts, play),
    (play) => ((answerOf[play] ?? -1) >= 0 ? 1 : 0),
    (play) => Math.max(answerOf[play] ?? -1, anywayOf[play] ?? -1),
  ).filter(isTelling);
  return tables.length === 0 ? null : stratifiedExactTest(tables).greater;
}
