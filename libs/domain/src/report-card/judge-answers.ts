import { TERM_PARTS, type NoteTerms } from '../coaching/note.js';
import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import type { RoundReport } from '../reports/round-report-shape.js';
import { compensatedSum } from '../statistics/compensated-sum.js';
import { opponentSnaps, type MatchPlays } from './match-plays.js';
import type { JudgedAnswer } from './report-card-shape.js';
import { answerVerdictWords } from './words.js';

/** The answers that a report recommended: how often the call met them in these games, and what that gave. */
export function judgeAnswers(report: RoundReport, match: MatchPlays): JudgedAnswer[] {
  return (report.answers?.calls ?? []).flatMap(({ side, label, terms: calledTerms, answers }) => {
    if (calledTerms === undefined) return [];
    const met = opponentSnaps(match, side).filter(whereSeen(match, calledTerms));
    const parts =
      side === 'offense' ? (['front', 'coverage', 'pressure'] as const) : (['concept', 'formation'] as const);
    const readers = parts.map((part) => termAt(match, part));
    const chances = met.filter((play) => readers.some((read) => read(play) !== null)).length;
    return answers.flatMap(({ id, label: answer, installed, terms, expected }): JudgedAnswer[] => {
      if (expected === undefined || terms === undefined) return [];
      const used = met.filter(whereSeen(match, terms));
      const judged = {
        ...{ id, side, call: label, answer, installed, chances },
        plays: used.length,
        ...gave(match, used),
        expected,
      };
      return [{ ...judged, words: answerVerdictWords(judged) }];
    });
  });
}

type Gave = Pick<JudgedAnswer, 'points' | 'pointsPlays' | 'successes' | 'trials'>;

function gave({ facts }: MatchPlays, used: Int32Array): Gave {
  const added = [...used]
    .map((play) => facts.pointsAdded?.[play] ?? UNKNOWN_POINTS)
    .filter((of) => of !== UNKNOWN_POINTS);
  const results = used.filter((play) => (facts.success[play] ?? -1) >= 0);
  return {
    points: added.length === 0 ? null : compensatedSum(added) / added.length,
    pointsPlays: added.length,
    successes: results.filter((play) => facts.success[play] === 1).length,
    trials: results.length,
  };
}

/** Plays on which all that a call names was seen; what it leaves open fits anything, but it has to name something. */
function whereSeen(match: MatchPlays, terms: Partial<NoteTerms>): (play: number) => boolean {
  const wanted = TERM_PARTS.flatMap((part) => {
    const term = terms[part] ?? null;
    return term === null ? [] : [{ term, read: termAt(match, part) }];
  });
  return (play) =>
    wanted.length > 0 &&
    wanted.every(({ term, read }) => {
      const seen = read(play);
      return seen !== null && match.vocabulary.isWithin(seen, term);
    });
}

/** The term that a field holds on a play, null where it is not known. */
export function termAt({ facts }: MatchPlays, field: (typeof TERM_PARTS)[number]): (play: number) => number | null {
  const { codes, meanings } = facts.plays.code(field);
  return (play) => meanings[codes[play] ?? -1] ?? null;
}
