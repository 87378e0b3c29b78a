import type { Vocabulary } from '../../charting/vocabulary.js';
import { concernsCall } from '../../coaching/concerns-call.js';
import type { Note } from '../../coaching/note.js';
import type { AnsweredCall, AnswerLine } from '../answers/report-answers-shape.js';
import type { RoundReport, ShareClaim } from '../round-report-shape.js';
import type { AttachedPoint } from './attached-point.js';

type Subject = Pick<RoundReport, 'playerId' | 'sample' | 'answers' | 'offense' | 'defense'>;

/** More of them than this are no longer read before a match; the others are on the clan's list. A choice, no source. */
const MOST_ATTACHED = 40;

/**
 * Where the clan's coaching points belong in a report: on its opponent, on calls that it answers or lists, on answers, on
 * plays of its games. A point that belongs nowhere is left out; one that belongs to several calls stands at each.
 *
 * @param notes      - only such as the whole clan reads, the newest first
 * @param vocabulary - by whose canonical ids the notes' terms are
 */
export function attachPoints(notes: readonly Note[], report: Subject, vocabulary: Vocabulary): AttachedPoint[] {
  return notes.flatMap((note) => placesOf(note, report, vocabulary)).slice(0, MOST_ATTACHED);
}

function placesOf(note: Note, report: Subject, vocabulary: Vocabulary): AttachedPoint[] {
  const point = { pointId: note.id, revision: note.revision, claimId: null, label: null, play: null };
  const { about, playerId, chartId, playNumber } = note;
  switch (about) {
    case 'opponent':
      return playerId === report.playerId ? [{ ...point, on: 'opponent' }] : [];
    case 'play': {
      if (chartId === null || playNumber === null) return [];
      const isOfReport = report.sample.charts.some((chart) => chart.chartId === chartId);
      return isOfReport ? [{ ...point, on: 'play', play: { chartId, playNumber } }] : [];
    }
    case 'answer':
      return answersOf(note, report, vocabulary).map(({ id, label }) => ({
        ...point,
        on: 'answer',
        claimId: id,
        label,
      }));
    case 'call': {
      const owned = answersOf(note, report, vocabulary);
      const answered = (report.answers?.calls ?? []).filter(({ terms = {} }) => concernsCall(note, terms, vocabulary));
      const found = [...owned, ...answered];
      const claims = found.length > 0 ? found : listed(note, report, vocabulary);
      return claims.map(({ id, label }) => ({ ...point, on: 'call', claimId: id, label }));
    }
  }
}

/** Answers of ours that a note is about: by the call of the menu, or by its terms against the call that it answers. */
function answersOf(note: Note, { answers }: Subject, vocabulary: Vocabulary): AnswerLine[] {
  const { front, coverage, pressure, ...of } = note;
  const defense = { ...of, front, coverage, pressure, callFamily: null, concept: null, formation: null };
  const offense = { ...of, front: null, coverage: null, pressure: null };
  const namesCall = [of.callFamily, of.concept, of.formation].some((term) => term !== null);
  const fits = ({ terms: ofCall = {}, side }: AnsweredCall, { menuCallId, terms = {} }: AnswerLine): boolean => {
    if (note.menuCallId !== null) return menuCallId === note.menuCallId;
    if (note.about !== 'answer' || side !== 'offense') return false;
    return concernsCall(defense, terms, vocabulary) && (!namesCall || concernsCall(offense, ofCall, vocabulary));
  };
  return (answers?.calls ?? []).flatMap((call) => call.answers.filter((line) => fits(call, line)));
}

/** The share of the report that says the most of the call, where none of its answered calls is it. */
function listed(note: Note, { offense, defense }: Subject, vocabulary: Vocabulary): ShareClaim[] {
  const claims = [offense, defense].flatMap(({ standsOut, mostUsed }) => [
    ...standsOut.map(({ claim }) => claim),
    ...mostUsed,
  ]);
  return claims
    .filter(({ dimension, termId }) => termId !== null && concernsCall(note, { [dimension]: termId }, vocabulary))
    .slice(0, 1);
}
