import type { Evidence } from '../../tendencies/evidence.js';
import type { Counted, CountedShare } from '../../tendencies/decisions/counted-share.js';
import { shareEstimate } from '../../tendencies/decisions/counted-share.js';
import type { AskedPlays } from '../../tendencies/decisions/asked-plays.js';
import type { FieldShare } from '../../tendencies/results-shape.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { FEW_PLAYS } from '../../tendencies/words/rests-on-words.js';
import type { PlayFieldName } from '../../charting/play-fields.js';
import { claimId } from '../claim-ids.js';
import { gameOf, plain, references } from '../share-claims.js';
import type { LikenessOfGames } from './likeness-of-games.js';
import type { HabitClaim, HabitTopic, HabitTopicName, PredictedTell, Silence, SilenceReason } from './habits-shape.js';

/** Whose habits a topic is about. */
export interface HabitSource {
  readonly side: Side;
  readonly asked: AskedPlays;
  /** How much less plays say for coming from few games; null where no field shows it. */
  readonly games: LikenessOfGames | null;
}

/** The same for a topic that holds shares against the field. */
export interface HeldSource extends HabitSource {
  /** Which of its shares stand: by their p-values, all of them at once. */
  readonly standing: (pValues: readonly number[]) => readonly boolean[];
}

/** More lines than this on one topic are a list to get lost in. A choice, no source. */
export const MOST_LINES = 6;

export interface HabitFinding extends Counted {
  /** What tells it from the others of its topic. */
  readonly key: readonly string[];
  readonly label: string;
  readonly words: string;
  readonly field?: FieldShare | null;
  readonly evidence: Evidence;
  readonly status: HabitClaim['status'];
  readonly tell?: PredictedTell;
}

/** A share as the counts, field and plays of a finding. */
export function ofShare({
  count,
  known,
  field,
  evidence,
}: CountedShare): Omit<HabitFinding, 'key' | 'label' | 'words' | 'status'> {
  return { count, known, field, evidence };
}

/** A finding as plain data. */
export function habitClaim({ side, asked }: HabitSource, topic: HabitTopicName, finding: HabitFinding): HabitClaim {
  const { key, label, words, count, known, field, evidence, status, tell } = finding;
  const { plays } = asked.facts;
  const places = evidence.places();
  const estimate = shareEstimate({ count, known }, asked.confidence);
  return {
    id: claimId([side, topic, ...key]),
    side,
    topic,
    label,
    words,
    count,
    known,
    interval: estimate === null ? null : plain(estimate.interval),
    fieldShare: field?.share ?? null,
    fieldKnown: field?.known ?? 0,
    games: new Set(places.map((play) => gameOf(plays, play))).size,
    status,
    plays: references(plays, places),
    ...(tell !== undefined && { tell }),
  };
}

const TITLES: Readonly<Record<HabitTopicName, string>> = {
  tells: 'Tells',
  leads: 'Leads, not proven',
  looks: 'Looks used otherwise than by the field',
  disguise: 'Does the shell lie',
  manualDefender: 'The defender controlled by hand',
  openers: 'Openers',
  repeats: 'The same again',
  reactions: 'After a sack, a turnover, an explosive play',
  order: 'Each call after the one before',
  adjustments: 'What answers what before the snap',
  duel: 'The duel before the snap, in order',
  pointOfAttack: 'Point of attack',
  decisions: 'Fourth down, tries and kicks',
  clock: 'When the clock and the score press',
  timeouts: 'Timeouts',
  drift: 'Recent games against earlier ones',
  withinGames: 'Second half against first',
  rulesVersion: 'The rules or the player',
};

/** What topics are read from that speak of one or two fields; the others fall silent for want of film first. */
const READ_FROM: Partial<Readonly<Record<HabitTopicName, readonly PlayFieldName[]>>> = {
  disguise: ['shell', 'coverage'],
  manualDefender: ['manualDefenderStart', 'manualDefenderAction'],
  adjustments: ['preSnapAdjustments'],
  duel: ['preSnapAdjustments'],
  pointOfAttack: ['offDesign'],
  clock: ['tempo', 'clockSeconds', 'clockRunning'],
  timeouts: ['offenseTimeouts', 'defenseTimeouts'],
};

/** Below this many known plays that nothing was found rules nothing out. */
export function foundNothingOn(known: number): SilenceReason {
  return known < FEW_PLAYS ? 'too little film' : 'not found';
}

/**
 * @param note   - what it rests on, or where nothing is found, why not
 * @param silent - why, where nothing is found
 */
export function habitTopic(
  source: HabitSource,
  topic: HabitTopicName,
  note: string,
  findings: readonly HabitFinding[],
  silent: SilenceReason,
): HabitTopic {
  return {
    topic,
    side: source.side,
    title: TITLES[topic],
    note,
    claims: findings.slice(0, MOST_LINES).map((finding) => habitClaim(source, topic, finding)),
    ...(findings.length === 0 && { silence: silenceOf(topic, silent) }),
  };
}

function silenceOf(topic: HabitTopicName, reason: SilenceReason): Silence {
  return { reason, toChart: reason === 'not charted' ? (READ_FROM[topic] ?? []) : [] };
}
