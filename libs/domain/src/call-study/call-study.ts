import type { AnswerModel } from '../answers/answer-model.js';
import { answersTo, type Answer } from '../answers/answers-to.js';
import {
  callCodes,
  defenseCodes,
  defenseOptionOf,
  playsAgainst,
  playsOfCall,
  type AskedCall,
  type AskedDefense,
} from '../answers/asked-call.js';
import { gamesMet, type GameMet } from '../answers/games-met.js';
import type { MenuCall } from '../answers/options.js';
import { stagedAnswers, type MoveAnswer } from '../answers/stages.js';
import { resultsOfPlays } from '../tendencies/decisions/results-of-plays.js';
import { resultCounts } from '../tendencies/value-tallies.js';
import type { Results } from '../tendencies/results-shape.js';
import type { Side } from '../tendencies/tendency-plays.js';
import { giveaways, type Giveaways } from '../tendencies/tells/giveaways.js';
import { DEFAULT_TELL_LEVEL } from '../tendencies/tells/tells.js';
import type { Trend, Trends } from '../trends/trends.js';
import { UsageCounts, type WhoAndWhen } from '../trends/usage-counts.js';
import { usageOverEvents, type EventUsage } from '../trends/usage-over-events.js';
import { studyFilm, type StudyPlay } from './study-film.js';
import { trendOfCall } from './trend-of-call.js';

export interface CallStudyInput {
  readonly model: AnswerModel;
  /** Whose call it is. */
  readonly side: Side;
  /** Of that side; terms canonical. */
  readonly asked: AskedCall & AskedDefense;
  /** The call in words. */
  readonly label: string;
  /** Whose call each play shows, and when. */
  readonly usage: WhoAndWhen;
  /** Of that side: what was put to the test over the events. */
  readonly trends: Trends;
  /** Empty for a page that is to leave the clan. */
  readonly menu: readonly MenuCall[];
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
}

/** One call: who uses it, what gives it away, what it gives where, who has held it and how. */
export interface CallStudy {
  readonly plays: number;
  readonly games: number;
  readonly players: number;
  readonly usage: {
    /** In the order of events. */
    readonly byEvent: readonly EventUsage[];
    /** Null where it was not put to the test: seldom used, or a combination that none is made of. */
    readonly trend: Trend | null;
  };
  readonly giveaways: Giveaways;
  /** All snaps first, then situation by situation. */
  readonly results: readonly { readonly situation: string | null; readonly results: Results }[];
  /** For a call of the offense the games that held it first, for one of the defense those that beat it. */
  readonly met: readonly GameMet[];
  readonly answers: readonly Answer[];
  /** What was moved at the line, and what was done by hand; a defense's answers only. */
  readonly moves: readonly MoveAnswer[];
  readonly film: readonly StudyPlay[];
}

/** More games than this are a list to get lost in. */
const MOST_GAMES = 12;

/**
 * A study of one call over everybody's plays.
 *
 * @throws DomainError `stats.invalid_probability`, `vocabulary.unknown_code`
 */
export function callStudy(input: CallStudyInput): CallStudy {
  const { model, side, asked, label, usage, menu, confidence } = input;
  const { facts, vocabulary } = model;
  const offense = side === 'offense';
  const codes = offense ? callCodes(model, asked) : defenseCodes(model, asked);
  const places = offense ? playsOfCall(model, asked) : playsAgainst(model, asked);
  const met = gamesMet(model, places, confidence, offense, MOST_GAMES);
  const question = { menu, otherCalls: [], confidence };
  const staged = offense ? stagedAnswers(model, { ...question, asked, label }) : null;
  const against = { ...question, places, answering: 'offense' as const };
  const answers = staged?.huddle ?? answersTo(model, { ...against, call: defenseOptionOf(model, label, places) });
  const whose = offense ? model.coded.offense : model.coded.defense;
  return {
    plays: places.length,
    games: new Set(places.map((play) => facts.plays.chartIndex[play] ?? -1)).size,
    players: new Set(places.map((play) => whose[play] ?? -1).filter((player) => player >= 0)).size,
    usage: {
      byEvent: usageOverEvents(
        { ...usage, facts, confidence },
        new UsageCounts(facts, { codes, values: [[], []] }, usage),
        0,
      ),
      trend: trendOfCall(input.trends, side, asked),
    },
    giveaways: giveaways({
      ...{ facts, side, playerOf: whose, vocabulary, codes, label, confidence, level: DEFAULT_TELL_LEVEL },
      partsOfCall: [...(asked.formationId == null ? [] : ['formation']), ...(asked.frontId == null ? [] : ['front'])],
    }),
    results: resultsBySituation(model, places, confidence),
    met,
    answers,
    moves: staged === null ? [] : [...staged.line.moves, ...staged.hand],
    film: studyFilm(model, met),
  };
}

/** What came of the call in each situation, beside what came of all calls there. */
function resultsBySituation(model: AnswerModel, places: Int32Array, confidence: number): CallStudy['results'] {
  const { facts } = model;
  const everything = everythingBySituation(model);
  const called = bySituation(model, places);
  const of = (own: Int32Array, all: Int32Array): Results =>
    resultsOfPlays(facts, own, resultCounts(facts, all), confidence);
  const parts = facts.situationNames.flatMap((situation, at) => {
    const [own, all] = [called.parts[at], everything.parts[at]];
    if (own === undefined || all === undefined || own.length === 0) return [];
    return [{ situation, results: of(own, all) }];
  });
  return [{ situation: null, results: of(places, everything.all) }, ...parts];
}

/** Places of plays, and of those the ones in each situation. */
interface Situated {
  readonly all: Int32Array;
  readonly parts: readonly Int32Array[];
}

const EVERYTHING = new WeakMap<AnswerModel, Situated>();

/** The same for every study of an archive. */
function everythingBySituation(model: AnswerModel): Situated {
  const kept = EVERYTHING.get(model) ?? bySituation(model, playsOfCall(model, {}));
  EVERYTHING.set(model, kept);
  return kept;
}

function bySituation({ facts }: AnswerModel, all: Int32Array): Situated {
  const parts = facts.situationNames.map((): number[] => []);
  for (const play of all) parts[facts.situation[play] ?? -1]?.push(play);
  return { all, parts: parts.map((part) => Int32Array.from(part)) };
}
