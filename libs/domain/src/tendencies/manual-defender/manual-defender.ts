import type { Vocabulary } from '../../charting/vocabulary.js';
import { fieldCodes } from '../dimension-codes.js';
import type { DimensionValue } from '../dimension-names.js';
import { Evidence } from '../evidence.js';
import type { Results } from '../results-shape.js';
import { ALL_SNAPS, type SituationKey } from '../situation-keys.js';
import { situationPlays } from '../situation-plays.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { answeredShare, countAnswers, type Answers, type CountedShare } from '../decisions/counted-share.js';
import { resultsOfPlays } from '../decisions/results-of-plays.js';
import { valueCounts, type ReadPlays, type ValueCount } from '../decisions/value-counts.js';
import { DEFAULT_LEFT_AREAS, type LeftArea } from './left-areas.js';
import { thrownInto } from './thrown-into.js';

/** What the manually controlled defender did from one start. */
export interface StartAndAction {
  readonly start: DimensionValue;
  readonly action: DimensionValue;
  readonly count: number;
  readonly evidence: Evidence;
}

/** An action, the area it leaves, and what was thrown there. */
export interface ActionOpening {
  readonly action: DimensionValue;
  readonly area: LeftArea;
  /** Throws into the area, of throws at this action whose zone and depth are known. */
  readonly hits: CountedShare;
  /** What came of the throws into the area, and of the other known ones. */
  readonly whenHit: Results;
  readonly elsewhere: Results;
  /** The concepts that were thrown there, most frequent first; their shares are of hits with a known concept. */
  readonly concepts: readonly ValueCount[];
}

export interface ManualDefenderSituation {
  readonly situation: SituationKey;
  readonly snaps: number;
  readonly starts: readonly ValueCount[];
  readonly actions: readonly ValueCount[];
}

export interface ManualDefender {
  /** All snaps first, then each situation in which anything is known. */
  readonly situations: readonly ManualDefenderSituation[];
  readonly together: readonly StartAndAction[];
  /** Most frequent action first; actions whose area cannot be told are left out. */
  readonly openings: readonly ActionOpening[];
}

/**
 * Where the player puts the defender that is controlled by hand, what that defender does, and what opens: start and
 * action by situation against the field, and the area each action leaves with the throws that found it. A throw counts
 * only where zone and depth are known; a play without an action is no play with none.
 *
 * @param asked - plays that the player defended; counting snaps only take part
 * @param areas - the area each action leaves
 * @throws DomainError `stats.invalid_probability`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function manualDefender(
  asked: AskedPlays,
  areas: ReadonlyMap<string, LeftArea> = DEFAULT_LEFT_AREAS,
): ManualDefender {
  const { facts, field, player, confidence } = asked;
  const own = situationPlays(facts);
  const others = field === null ? null : situationPlays(field.facts, othersPlaces(field, player));
  const shares = (name: 'manualDefenderStart' | 'manualDefenderAction', situation: SituationKey): ValueCount[] => {
    const read = (of: TendencyPlays, places: Int32Array | undefined): ReadPlays => ({
      facts: of,
      read: fieldCodes(name, of, asked.vocabulary),
      places: places ?? new Int32Array(0),
    });
    const theirs = field === null ? null : read(field.facts, others?.get(situation));
    return valueCounts(read(facts, own.get(situation)), theirs, confidence);
  };
  const situations = [...own].map(([situation, places]) => ({
    situation,
    snaps: places.length,
    starts: shares('manualDefenderStart', situation),
    actions: shares('manualDefenderAction', situation),
  }));
  return {
    situations: situations.filter(
      ({ situation, starts, actions }) => situation === ALL_SNAPS || starts.length + actions.length > 0,
    ),
    together: startsAndActions(asked, own.get(ALL_SNAPS) ?? new Int32Array(0)),
    openings: openingsOf(asked, areas),
  };
}

function startsAndActions({ facts, vocabulary }: AskedPlays, places: Int32Array): StartAndAction[] {
  const starts = fieldCodes('manualDefenderStart', facts, vocabulary);
  const actions = fieldCodes('manualDefenderAction', facts, vocabulary);
  return starts.values
    .flatMap((start, startCode) =>
      actions.values.flatMap((action, actionCode): StartAndAction[] => {
        const belongs = (play: number): boolean =>
          starts.codes[play] === startCode && actions.codes[play] === actionCode;
        const count = places.filter(belongs).length;
        return count === 0 ? [] : [{ start, action, count, evidence: new Evidence(facts.plays, places, belongs) }];
      }),
    )
    .sort((first, second) => second.count - first.count);
}

function openingsOf(asked: AskedPlays, areas: ReadonlyMap<string, LeftArea>): ActionOpening[] {
  const { facts, field, player, vocabulary, confidence } = asked;
  const actions = fieldCodes('manualDefenderAction', facts, vocabulary);
  const concepts = fieldCodes('concept', facts, vocabulary);
  return actions.values
    .flatMap((action): ActionOpening[] => {
      const code = action.termId === null ? null : (vocabulary.byId(action.termId)?.code ?? null);
      const area = areas.get(code?.replace(/^manualDefenderAction\./, '') ?? '');
      if (area === undefined || action.termId === null) return [];
      const answers = hitAnswers(facts, vocabulary, action.termId, area);
      const places = allPlaces(facts).filter((play) => (answers[play] ?? -1) >= 0);
      const among = (answer: number): Int32Array => places.filter((play) => answers[play] === answer);
      const fieldCounts =
        field === null
          ? null
          : countAnswers(hitAnswers(field.facts, vocabulary, action.termId, area), othersPlaces(field, player));
      return [
        {
          action,
          area,
          hits: answeredShare(facts, answers, places, fieldCounts, confidence),
          whenHit: resultsOfPlays(facts, among(1), null, confidence),
          elsewhere: resultsOfPlays(facts, among(0), null, confidence),
          concepts: valueCounts({ facts, read: concepts, places: among(1) }, null, confidence),
        },
      ];
    })
    .sort((first, second) => second.hits.known - first.hits.known);
}

/** As `thrownInto`, of plays with the action only. */
function hitAnswers(facts: TendencyPlays, vocabulary: Vocabulary, actionId: number, area: LeftArea): Answers {
  const { codes, meanings } = facts.plays.code('manualDefenderAction');
  const answers = thrownInto(facts, vocabulary, area);
  return answers.map((into, play) => (meanings[codes[play] ?? -1] === actionId ? into : -1));
}
