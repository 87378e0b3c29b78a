import { STARTER_TERMS } from '../charting/starter-vocabulary.js';
import type { ListFieldName } from '../charting/play-fields.js';
import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { resultsOfPlays } from '../tendencies/decisions/results-of-plays.js';
import { Evidence } from '../tendencies/evidence.js';
import type { Results } from '../tendencies/results-shape.js';
import type { AnswerModel } from './answer-model.js';
import { answersTo, type Answer, type AnswersQuestion, type Estimate } from './answers-to.js';
import { optionOf, playsOfCall, type AskedCall } from './asked-call.js';
import { beyondExpected } from './games-met.js';
import { pooledGroups } from './pooled-means.js';
import { intervalAround } from './interval-around.js';

/** Something that a defense does beside its call: at the line, or by hand. */
export interface MoveAnswer {
  readonly what: 'alignment' | 'adjustment' | 'manual defender';
  readonly termId: number;
  readonly label: string;
  readonly plays: number;
  readonly games: number;
  /**
   * Expected points added a play beyond what situation, call, offense and defense lead one to expect, drawn towards the
   * other moves of its kind.
   */
  readonly beyond: Estimate;
  readonly results: Results;
  readonly evidence: Evidence;
}

/** Answers in the order in which they can be given; none rests on what is seen later than that. */
export interface StagedAnswers {
  /** From the huddle: whole calls, whatever the formation. */
  readonly huddle: readonly Answer[];
  /** At the line, the formation seen: installed calls that a check gets into, and what can be moved. */
  readonly line: { readonly checks: readonly Answer[]; readonly moves: readonly MoveAnswer[] };
  /** By hand, once the checks are over: what the defender that a person controls does. */
  readonly hand: readonly MoveAnswer[];
  /** Plays of the call, and of those the ones from the formation that was asked for. */
  readonly plays: number;
  readonly playsFromFormation: number;
}

export type StagedQuestion = Pick<AnswersQuestion, 'menu' | 'otherCalls' | 'confidence'> & {
  readonly asked: AskedCall;
  /** The call in words. */
  readonly label: string;
};

/**
 * A defense's answers to an offensive call in three stages. A formation that is asked for is not known in the huddle, so
 * calls from there are judged on the call from every formation; front, alignment and shell of the play are the defense's
 * own and condition nothing.
 *
 * @throws DomainError `stats.invalid_probability`, `vocabulary.unknown_code`
 */
export function stagedAnswers(model: AnswerModel, { asked, label, ...question }: StagedQuestion): StagedAnswers {
  const everywhere = playsOfCall(model, { ...asked, formationId: null });
  const fromFormation = asked.formationId == null ? everywhere : playsOfCall(model, asked);
  const of = (places: Int32Array): Answer[] =>
    answersTo(model, { ...question, places, answering: 'defense', call: optionOf(model, label, places) });
  return {
    huddle: of(everywhere),
    line: {
      checks: of(fromFormation).filter(({ option }) => option.menu?.byCheck === true),
      moves: [
        ...moves(model, fromFormation, 'alignment', question.confidence),
        ...moves(model, fromFormation, 'adjustment', question.confidence),
      ],
    },
    hand: moves(model, fromFormation, 'manual defender', question.confidence),
    plays: everywhere.length,
    playsFromFormation: fromFormation.length,
  };
}

/** Fewer plays than this show no move worth naming. Common practice, no source. */
const FEWEST_PLAYS = 3;

function moves(model: AnswerModel, places: Int32Array, what: MoveAnswer['what'], confidence: number): MoveAnswer[] {
  const { points, facts, vocabulary, coded } = model;
  if (points === null) return [];
  const byTerm = new Map<number, number[]>();
  const termsOf = readMoves(model, what);
  for (const play of places) {
    if ((model.pointsAdded[play] ?? UNKNOWN_POINTS) === UNKNOWN_POINTS) continue;
    for (const term of new Set(termsOf(play))) {
      const own = byTerm.get(term) ?? [];
      byTerm.set(term, own);
      own.push(play);
    }
  }
  const groups = [...byTerm].filter(([, plays]) => plays.length >= FEWEST_PLAYS);
  const pooled = pooledGroups(
    groups.map(([, plays]) =>
      plays.map(
        (play) => beyondExpected(points, model.pointsAdded, play) - points.defenseEffect(coded.defense[play] ?? -1),
      ),
    ),
    points.variances.residual,
  );
  return groups
    .map(([termId, plays], at): MoveAnswer => {
      const { estimate, standardDeviation } = pooled[at] ?? { estimate: 0, standardDeviation: 0 };
      const among = Int32Array.from(plays);
      return {
        what,
        termId,
        label: vocabulary.byId(termId)?.name ?? `term ${termId}`,
        plays: plays.length,
        games: new Set(plays.map((play) => facts.plays.chartIndex[play])).size,
        beyond: { mean: estimate, interval: intervalAround(estimate, standardDeviation, confidence) },
        results: resultsOfPlays(facts, among, null, confidence),
        evidence: new Evidence(facts.plays, among, () => true),
      };
    })
    .sort((one, other) => one.beyond.mean - other.beyond.mean || one.termId - other.termId);
}

const DEFENSIVE_MOVES: ReadonlySet<string> = new Set(
  STARTER_TERMS.flatMap(({ code, by }) => (by === 'defense' ? [code] : [])),
);

function readMoves({ facts, vocabulary }: AnswerModel, what: MoveAnswer['what']): (play: number) => number[] {
  const { plays } = facts;
  if (what === 'manual defender') {
    const { codes, meanings } = plays.code('manualDefenderAction');
    return (play) => {
      const meaning = meanings[codes[play] ?? -1];
      return meaning === undefined ? [] : [meaning];
    };
  }
  const name: ListFieldName = what === 'alignment' ? 'alignmentAdjustments' : 'preSnapAdjustments';
  const { starts, codes, meanings } = plays.list(name);
  const taken = meanings.map(
    (meaning) => what === 'alignment' || DEFENSIVE_MOVES.has(vocabulary.byId(meaning)?.code ?? ''),
  );
  return (play) =>
    [...codes.subarray(starts[play], starts[play + 1])].flatMap((code) => {
      const meaning = meanings[code];
      return taken[code] === true && meaning !== undefined ? [meaning] : [];
    });
}
