import { UNKNOWN_CODE } from '../../charting/play-columns.js';
import type { CodeFieldName } from '../../charting/play-fields.js';
import { DomainError } from '../../domain-error.js';
import { Evidence } from '../../tendencies/evidence.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { countCalls, type CallArchive, type CountedCalls } from './call-archive.js';
import type { GameSoFar, ModelSays } from './game-in-progress.js';

/**
 * One step of the evidence, from everybody to this player on this look. `together` is no further plays: it is what a model
 * of all calls of the archive says once the counted steps are put aside and everything known is weighed at once.
 */
export interface EvidenceStep extends CountedCalls {
  readonly of: 'field' | 'player' | 'together' | 'today';
  /** What the plays have in common with the one to come; null of all plays. */
  readonly situation: string | null;
  readonly cues: readonly CodeFieldName[];
  /** Shares of each class once this step is taken in. */
  readonly shares: Float64Array;
  readonly evidence: Evidence | null;
}

export interface NextCall {
  /** Probability of each class of the archive. */
  readonly probabilities: Float64Array;
  /**
   * What the archive was counted for, widest first; steps without a play are left out. The first is all calls of the field.
   * The same list for every question about the same look, see `KnownLooks`.
   */
  readonly counted: readonly EvidenceStep[];
  /** What counts after that: what the model says, and this game's calls so far. */
  readonly since: readonly EvidenceStep[];
}

/** At most this many cues count at once: more leave hardly a play. */
const MOST_CUES = 2;
/** Plays' worth that what is known before the game keeps against the game so far; the best of a few on simulated leagues. */
const TODAY_WEIGHT = 20;
const TODAY_WEIGHT_OF_MODEL = 40;

/**
 * What comes next: shares by nested Dirichlet smoothing along one way of evidence: everybody's calls, those in this
 * situation, those on this look, then this player's in the situation, on the look with one cue and with two, and last
 * this game's. Each step is drawn towards the one before it by the archive's weights, and a step without plays changes
 * nothing, so that it answers for a player of whom nothing is known. A player's step in the situation keeps what the look
 * told of everybody: it is taken in by how far the player's own shares there are off everybody's.
 *
 * With a model the counted steps are told all the same, and then what the model makes of everything at once counts in their
 * place; today's calls move it by how far they are off what it expected of them.
 *
 * @param player - number of the player in the archive, -1 for one it does not know
 * @param model  - null where there is none (yet)
 * @param known  - what was counted of this archive for other questions, for the next one about the same look
 * @throws DomainError `forecast.too_little` where the archive knows no call of the target
 * @see MacKay & Peto (1995), Nat. Lang. Eng. 1, 289–308
 */
export function nextCall(
  archive: CallArchive,
  player: number,
  game: GameSoFar,
  model: ModelSays | null = null,
  known: KnownLooks = new Map(),
): NextCall {
  const { rows, target } = archive;
  if (rows.length === 0) throw new DomainError('forecast.too_little', `no play has its ${target} charted`, { target });
  const asked = askedLook(archive, game);
  const key = `${player} ${asked.situation} ${asked.cues.map((name) => `${name} ${asked.codes.get(name) ?? -1}`).join()}`;
  const counted = known.get(key) ?? countedSteps(archive, asked, player);
  known.set(key, counted);
  const shares = counted.at(-1)?.shares ?? new Float64Array(0);
  if (model === null) {
    const since = nextStep(shares, today(archive, asked, game), TODAY_WEIGHT, shares);
    return { probabilities: since?.shares ?? shares, counted, since: since === null ? [] : [since] };
  }
  const { taught, told } = model;
  const together: EvidenceStep = { ...ofAllCalls('together', taught), shares: model.shares };
  const soFar = { known: told.known, games: told.known > 0 ? 1 : 0, counts: told.counts };
  const expected = told.expected.map((sum) => sum / Math.max(1, told.known));
  const since = nextStep(model.shares, ofAllCalls('today', soFar), TODAY_WEIGHT_OF_MODEL, expected);
  if (since === null) return { probabilities: model.shares, counted, since: [together] };
  return { probabilities: since.shares, counted, since: [together, since] };
}

/** A step that nothing narrows. */
function ofAllCalls(of: EvidenceStep['of'], { known, games, counts }: CountedCalls): Omit<EvidenceStep, 'shares'> {
  return { of, situation: null, cues: [], known, games, counts, evidence: null };
}

/** The steps that the archive is counted for, by player and look. */
export type KnownLooks = Map<string, readonly EvidenceStep[]>;

/** Everybody's calls, then narrower and narrower ones, each drawn towards what was known before it. */
function countedSteps(archive: CallArchive, asked: AskedLook, player: number): readonly EvidenceStep[] {
  const { names, everybody, weights } = archive;
  const [first, second] = asked.cues;
  const one = first === undefined ? [] : [first];
  const two = second === undefined ? [] : [...one, second];
  const looks = [one, two].filter((cues) => cues.length > 0);
  const half = 0.5;
  const shares = everybody.counts.map((count) => (count + half) / (everybody.known + half * names.length));
  const steps: EvidenceStep[] = [{ ...ofAllCalls('field', everybody), shares }];
  const soFar = (): Float64Array => steps.at(-1)?.shares ?? shares;
  const take = (found: Omit<EvidenceStep, 'shares'>, weight: number, around = soFar()): void => {
    const next = nextStep(soFar(), found, weight, around);
    if (next !== null) steps.push(next);
  };
  if (asked.situation >= 0) take(step(archive, asked, [], null), weights.situation);
  const bySituation = soFar();
  for (const cues of looks) take(step(archive, asked, cues, null), weights.look);
  if (player >= 0) {
    take(step(archive, asked, [], player), weights.player, bySituation);
    for (const cues of looks) take(step(archive, asked, cues, player), weights.player);
  }
  return steps;
}

/**
 * One more step: what its plays say beyond what was expected of them, on top of what is known by now.
 *
 * @param before - shares known by now
 * @param around - shares that were expected of its plays
 * @returns null of a step without a play
 */
function nextStep(
  before: Float64Array,
  found: Omit<EvidenceStep, 'shares'>,
  weight: number,
  around: Float64Array,
): EvidenceStep | null {
  const { of, situation, cues, known, games, counts, evidence } = found;
  if (known === 0) return null;
  const shares = new Float64Array(before.length);
  let sum = 0;
  for (let k = 0; k < shares.length; k += 1) {
    const expected = around[k] ?? 0;
    const drawn = ((counts[k] ?? 0) + weight * expected) / (known + weight);
    sum += shares[k] = (before[k] ?? 0) * (drawn / expected);
  }
  for (let k = 0; k < shares.length; k += 1) shares[k] = (shares[k] ?? 0) / sum;
  return { of, situation, cues, known, games, counts, evidence, shares };
}

interface AskedLook {
  readonly situation: number;
  readonly situationName: string | null;
  /** Cues that are known of the play to come and tell something, most telling first. */
  readonly cues: readonly CodeFieldName[];
  /** Code of each cue in the archive, -1 where it was never seen there. */
  readonly codes: ReadonlyMap<CodeFieldName, number>;
}

function askedLook({ facts, cues }: CallArchive, { facts: game }: GameSoFar): AskedLook {
  const last = game.plays.count - 1;
  const situation = game.situation[last] ?? -1;
  const codes = new Map<CodeFieldName, number>();
  for (const name of cues) {
    const column = game.plays.code(name);
    const meaning = column.meanings[column.codes[last] ?? -1];
    if (meaning !== undefined) codes.set(name, facts.plays.code(name).meanings.indexOf(meaning));
  }
  return {
    situation,
    situationName: game.situationNames[situation] ?? null,
    cues: cues.filter((name) => codes.has(name)).slice(0, MOST_CUES),
    codes,
  };
}

/** Calls in the situation asked for, of a player or of everybody, with the look that the cues have. */
function step(
  archive: CallArchive,
  { situation, situationName, codes }: AskedLook,
  cues: readonly CodeFieldName[],
  player: number | null,
): Omit<EvidenceStep, 'shares'> {
  const { facts, rows, bySituation, byPlayer } = archive;
  const columns = cues.map((name) => ({ values: facts.plays.code(name).codes, wanted: codes.get(name) ?? -1 }));
  // A situation that cannot be told narrows nothing.
  const narrows = situation >= 0;
  const among = player !== null ? byPlayer.get(player) : narrows ? bySituation.get(situation) : rows.keys();
  const found: number[] = [];
  for (const at of among ?? []) {
    const row = rows[at] ?? 0;
    if (narrows && facts.situation[row] !== situation) continue;
    if (columns.every(({ values, wanted }) => wanted >= 0 && values[row] === wanted)) found.push(at);
  }
  const evidence =
    player === null
      ? null
      : new Evidence(
          facts.plays,
          Int32Array.from(found, (at) => rows[at] ?? 0),
          () => true,
        );
  const of = player === null ? 'field' : 'player';
  return { of, situation: narrows ? situationName : null, cues, ...countCalls(archive, found), evidence };
}

function today(
  { names }: CallArchive,
  { situation, situationName }: AskedLook,
  game: GameSoFar,
): Omit<EvidenceStep, 'shares'> {
  const counts = new Float64Array(names.length);
  let known = 0;
  for (let play = 0; play + 1 < game.facts.plays.count; play += 1) {
    const seen = game.classOf[play] ?? -1;
    const isAlike = situation < 0 || game.facts.situation[play] === situation;
    if (seen < 0 || !isAlike || game.facts.counts[play] !== 1) continue;
    counts[seen] = (counts[seen] ?? 0) + 1;
    known += 1;
  }
  return { of: 'today', situation: situationName, cues: [], known, games: known > 0 ? 1 : 0, counts, evidence: null };
}

/** What was called on each play of a game, in the archive's classes. */
export function classesOfGame(archive: CallArchive, facts: TendencyPlays, field: CodeFieldName): Int32Array {
  if (archive.target === 'run-pass') return Int32Array.from(facts.called);
  const own = facts.plays.code(field);
  const known = archive.facts.plays.code(field).meanings;
  const placeOf = own.meanings.map((meaning) => known.indexOf(meaning));
  const classes = new Int32Array(own.codes.length);
  for (let play = 0; play < classes.length; play += 1) classes[play] = placeOf[own.codes[play] ?? UNKNOWN_CODE] ?? -1;
  return classes;
}
