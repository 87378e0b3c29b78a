import type { AnswerModel } from '../../answers/answer-model.js';
import { answersTo, priceOf, type Answer } from '../../answers/answers-to.js';
import { defenseOptionOf, optionOf, playsAgainst, playsOfCall } from '../../answers/asked-call.js';
import { bestCalls } from '../../answers/best-call.js';
import { gamesMet, type GameMet } from '../../answers/games-met.js';
import type { CallOption, MenuCall } from '../../answers/options.js';
import type { PayoffTable } from '../../answers/payoffs.js';
import { playsOfPlayer } from '../../answers/plays-by-player.js';
import type { SituationCounts } from '../../answers/situation-counts.js';
import { situationMix, type SituationMix } from '../../answers/situation-mix.js';
import { theirCalls } from '../../answers/their-calls.js';
import {
  archiveRestsOn,
  answerWords,
  dialName,
  dialWords,
  gameWords,
  mixShareWords,
  pointsWords,
} from '../../answers/words.js';
import type { NoteTerms } from '../../coaching/note.js';
import { ALL_SNAPS } from '../../tendencies/situation-keys.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { counted, withCounts } from '../../tendencies/words/count-words.js';
import { claimId } from '../claim-ids.js';
import { gameOf, plain, references } from '../share-claims.js';
import type { AnsweredCall, ReportAnswers, ReportMix } from './report-answers-shape.js';

/** What answers of a report are read from: the archive as fitted, the player in it, and what we own. */
export interface ReportAnswersInput {
  readonly model: AnswerModel;
  /** Null where the archive is too small. */
  readonly payoffs: PayoffTable | null;
  readonly counts: Readonly<Record<Side, SituationCounts>>;
  /** Number of the player in the model. */
  readonly player: number;
  /** Identity of each number. */
  readonly identities: readonly string[];
  readonly menu: readonly MenuCall[];
  readonly confidence: number;
  readonly seed: number;
}

// Choices, no source: what fits on a page and can be rehearsed in an evening.
const CALLS_OF_A_KIND = 2;
const COVERAGES = 2;
const OWN_ANSWERS = 3;
const ANSWERS_TO_INSTALL = 2;
const GAMES = 3;
const SITUATIONS = 12;
/** More of their calls than this one line cannot tell. */
const CALLS_NAMED = 6;
const FEWEST_OF_A_COVERAGE = 5;

/**
 * The answers of a report: the player's best calls with what has held them, coverages with what has beaten them, and our
 * mixes by situation on both sides of the ball.
 *
 * @throws DomainError as the functions that are asked do
 */
export function reportAnswers(input: ReportAnswersInput): ReportAnswers {
  const { model, confidence, player } = input;
  const best = (['run', 'pass'] as const).flatMap((called) =>
    bestCalls(model, player, called, confidence).slice(0, CALLS_OF_A_KIND),
  );
  const coverages = topCoverages(model, player);
  return {
    restsOn: archiveRestsOn(model),
    calls: [
      ...best.map(({ conceptId, label, plays, points }) =>
        answeredCall(input, 'offense', {
          key: `concept:${conceptId}`,
          label,
          terms: { concept: conceptId },
          words: `${counted(plays, 'play')} of theirs, ${pointsWords(points)}`,
          places: () => playsOfCall(model, { conceptId }),
        }),
      ),
      ...coverages.map(({ termId, label, plays }) =>
        answeredCall(input, 'defense', {
          key: `coverage:${termId}`,
          label,
          terms: { coverage: termId },
          words: `played on ${counted(plays, 'snap')} on which it was seen`,
          places: () => playsAgainst(model, { coverageId: termId }),
        }),
      ),
    ],
    mixes: (['offense', 'defense'] as const).flatMap((side) => mixesOf(input, side)),
  };
}

interface Asked {
  readonly key: string;
  readonly label: string;
  readonly terms: Partial<NoteTerms>;
  readonly words: string;
  /** Ascending places of the plays of the call. */
  readonly places: () => Int32Array;
}

/** What has answered a call, whoever is asked about. */
interface Answered {
  readonly found: readonly Answer[];
  readonly games: readonly GameMet[];
}

/** By model, by call and by what we own: the calls of one opponent are those of many. */
const ANSWERED = new WeakMap<AnswerModel, Map<string, Answered>>();
/** About as many as an archive has calls that are anybody's best. */
const MOST_KEPT = 64;

function answered(
  { model, menu, confidence }: ReportAnswersInput,
  side: Side,
  { key, label, places }: Asked,
): Answered {
  const kept = ANSWERED.get(model) ?? new Map<string, Answered>();
  ANSWERED.set(model, kept);
  const name = JSON.stringify([side, key, confidence, menu]);
  const known = kept.get(name);
  if (known !== undefined) return known;
  const [plays, answering] = [places(), side === 'offense' ? 'defense' : 'offense'] as const;
  const made: Answered = {
    found: answersTo(model, {
      ...{ places: plays, menu, confidence, answering, otherCalls: [] },
      call: side === 'offense' ? optionOf(model, label, plays) : defenseOptionOf(model, label, plays),
    }),
    games: gamesMet(model, plays, confidence, side === 'offense', GAMES),
  };
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(name, made);
  return made;
}

function answeredCall(input: ReportAnswersInput, side: Side, asked: Asked): AnsweredCall {
  const { model, counts, player, confidence, identities } = input;
  const { key, label, terms, words } = asked;
  const { plays } = model.facts;
  const id = claimId(['answers', side, key]);
  const { found, games } = answered(input, side, asked);
  const answering = side === 'offense' ? 'defense' : 'offense';
  const otherCalls = theirCalls(model, counts[side], ALL_SNAPS, player).options;
  const own = found.filter(({ installed }) => installed).slice(0, OWN_ANSWERS);
  const bestOwn = own[0]?.points.mean;
  // What we do not own is only worth installing where it does better than what we do.
  const better = (answer: Answer): boolean =>
    bestOwn === undefined || (side === 'offense' ? answer.points.mean < bestOwn : answer.points.mean > bestOwn);
  const toInstall = found.filter((answer) => !answer.installed && better(answer)).slice(0, ANSWERS_TO_INSTALL);
  const named = [...own, ...toInstall].map((answer) => ({
    ...answer,
    price: priceOf(model, { answering, otherCalls, confidence }, answer.option),
  }));
  return {
    id,
    side,
    label,
    terms,
    words,
    answers: named.map((answer) => ({
      id: claimId(['answers', side, key, answer.option.key]),
      label: answer.option.label,
      installed: answer.installed,
      menuCallId: answer.option.menu?.id ?? null,
      terms: termsOf(model, side, answer.option),
      words: answerWords(answer, confidence),
      count: answer.plays,
      plays: references(plays, answer.evidence.places()),
      expected: { points: answer.points.mean, interval: plain(answer.points.interval) },
    })),
    games: games.map((game) => {
      const own_ = game.evidence.places();
      const gameId = gameOf(plays, own_[0] ?? -1);
      return {
        id: claimId(['answers', side, key, 'game', gameId, `${game.offense}`]),
        gameId,
        offense: identities[game.offense] ?? null,
        defense: identities[game.defense] ?? null,
        words: gameWords(game),
        count: game.plays,
        plays: references(plays, own_),
      };
    }),
  };
}

/** What an answer is: as the menu says, or as it was seen. */
function termsOf({ answers, calls }: AnswerModel, side: Side, { menu, levels }: CallOption): Partial<NoteTerms> {
  const level = levels[0]?.level ?? -1;
  if (side === 'offense') {
    const { frontId = null, coverageId = null, pressureId = null } = menu ?? answers.levels[level] ?? {};
    return { front: frontId, coverage: coverageId, pressure: pressureId };
  }
  return { concept: (menu ?? calls.levels[level])?.conceptId ?? null, formation: menu?.formationId ?? null };
}

/** The coverages that the player's defense was seen in most. */
function topCoverages(model: AnswerModel, player: number): { termId: number; label: string; plays: number }[] {
  const { codes, meanings } = model.facts.plays.code('coverage');
  const counts = new Int32Array(meanings.length);
  for (const play of player < 0 ? [] : playsOfPlayer(model, 'defense', player)) {
    const code = codes[play] ?? -1;
    if (code >= 0) counts[code] = (counts[code] ?? 0) + 1;
  }
  return meanings
    .map((termId, code) => ({
      termId,
      label: model.vocabulary.byId(termId)?.name ?? `term ${termId}`,
      plays: counts[code] ?? 0,
    }))
    .filter(({ plays }) => plays >= FEWEST_OF_A_COVERAGE)
    .sort((one, other) => other.plays - one.plays || one.termId - other.termId)
    .slice(0, COVERAGES);
}

function mixesOf({ model, payoffs, counts, player, menu, ...settings }: ReportAnswersInput, side: Side): ReportMix[] {
  if (payoffs === null || player < 0) return [];
  return counts[side]
    .situationsOf(player)
    .slice(0, SITUATIONS)
    .flatMap(({ situation }) => {
      const { confidence, seed } = settings;
      const question = { situation, theirSide: side, player, menu, confidence, seed };
      const mix = situationMix(model, payoffs, counts, question);
      return mix === null ? [] : [reportMix(mix, side, confidence)];
    });
}

/** `duo 4; slants 3; all others 9`: most frequent first. */
function callsWords(calls: readonly { readonly label: string; readonly count: number }[]): string {
  const met = calls.filter(({ count }) => count > 0).sort((one, other) => other.count - one.count);
  const named = met.slice(0, met.length > CALLS_NAMED ? CALLS_NAMED - 1 : CALLS_NAMED);
  const others = met.slice(named.length).reduce((sum, { count }) => sum + count, 0);
  return [...named, ...(others > 0 ? [{ label: 'all others', count: others }] : [])]
    .map(({ label, count }) => withCounts(label, `${count}`))
    .join('; ');
}

function reportMix(of: SituationMix, side: Side, confidence: number): ReportMix {
  const { situation, theirs, ours, installed, mix } = of;
  return {
    id: claimId(['mix', side, situation]),
    side,
    situation,
    plays: theirs.plays,
    theirs: callsWords(theirs.options.map(({ label }, place) => ({ label, count: theirs.counts[place] ?? 0 }))),
    installed,
    dial: mix.dial.map((stop) => ({
      name: dialName(stop),
      mix: mixShareWords(of, stop.shares),
      words: dialWords(of, stop, confidence),
    })),
    // A safe mix may hold a call that another beats on average, where more is known of the one.
    neverPays: mix.dominated
      .filter(({ row }) => mix.dial.every(({ shares }) => (shares[row] ?? 0) === 0))
      .flatMap(({ row }) => ours[row]?.label ?? []),
  };
}
