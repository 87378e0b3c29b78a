import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import {
  playField,
  type CodeFieldName,
  type ListFieldName,
  type NumberFieldName,
  type PlayType,
} from '../charting/play-fields.js';
import type { Vocabulary } from '../charting/vocabulary.js';

/** What kind of snap follows by the rules: one with a down, a try, or one that puts the ball in play with a kick. */
export type SnapKind = 'scrimmage' | 'punt' | 'field goal' | 'kickoff' | 'try';

const KIND_OF_TYPE: ReadonlyMap<string, SnapKind> = new Map<PlayType, SnapKind>([
  ['scrimmage', 'scrimmage'],
  ['kneel', 'scrimmage'],
  ['spike', 'scrimmage'],
  ['punt', 'punt'],
  ['field goal', 'field goal'],
  ['kickoff', 'kickoff'],
  ['free kick', 'kickoff'],
  ['try kick', 'try'],
  ['two-point try', 'try'],
]);

/** Results of a snap on which the ball was run or thrown. */
export const RUN_OR_PASS = [
  'rushed',
  'complete',
  'incomplete',
  'intercepted',
  'sacked',
  'scrambled',
  'aborted-snap',
] as const;
const RESULTS = [
  ...RUN_OR_PASS,
  'knelt',
  'spiked',
  'kick-good',
  'kick-missed',
  'kick-blocked',
  'touchback',
  'fair-catch',
  'returned',
  'downed',
  'muffed',
  'onside-recovered-by-the-kickers',
  'onside-recovered-by-the-receivers',
  'no-play',
] as const;
export type ResultName = (typeof RESULTS)[number];

const LED_TO = [
  'first-down-gained',
  'touchdown-offense',
  'touchdown-defense-or-return',
  'safety-scored',
  'fumble-kept',
  'fumble-lost',
  'turnover-on-downs',
  'end-of-half',
  'end-of-game',
  'conceded-or-disconnected',
] as const;
export type LedToName = (typeof LED_TO)[number];

/** Fouls that give a first down whatever their yards, in most rule books. Common practice, no source. */
const FIRST_DOWN_FOULS = [
  'holding-by-the-defense',
  'pass-interference-by-the-defense',
  'roughing',
  'face-mask',
  'unsportsmanlike',
] as const;

export interface FoulFacts {
  readonly side: 'offense' | 'defense' | null;
  readonly answer: 'accepted' | 'declined' | 'offset' | null;
  readonly yards: number | null;
  /** Whether it may give a first down whatever its yards; true too where the foul itself is unknown. */
  readonly mayGiveFirstDown: boolean;
}

/** What continuity needs of one play, with null for whatever the chart does not say. */
export interface PlayFacts {
  readonly playNumber: number;
  readonly orderInGame: number;
  readonly chart: number;
  readonly playType: string;
  readonly kind: SnapKind;
  /** 1 the home player, 0 the away player. On a kickoff it is the kicking side. */
  readonly offense: number;
  readonly quarter: number | null;
  readonly down: number | null;
  readonly distance: number | null;
  readonly yardsToGoal: number | null;
  readonly drive: number | null;
  readonly gain: number | null;
  readonly kickLength: number | null;
  readonly returnYards: number | null;
  readonly isFake: boolean;
  readonly result: ResultName | null;
  readonly ledTo: ReadonlySet<LedToName> | null;
  readonly neverSnapped: boolean;
  readonly replayed: boolean | null;
  /** Null where no foul is charted. */
  readonly foul: FoulFacts | null;
}

/** Reads plays of one batch one at a time; null for a play whose type is unknown. */
export function playReader(plays: PlayColumns, vocabulary: Vocabulary): (play: number) => PlayFacts | null {
  const numberOf = (name: NumberFieldName): ((play: number) => number | null) => {
    const { values } = plays.number(name);
    return (play) => (values[play] === UNKNOWN_NUMBER ? null : (values[play] ?? null));
  };
  const wordOf = (name: CodeFieldName): ((play: number) => string | null) => {
    const field = playField(name);
    const choices = field?.type === 'choice' ? field.choices : [];
    const { codes, meanings } = plays.code(name);
    const words = meanings.map((place) => choices[place] ?? null);
    return (play) => words[codes[play] ?? -1] ?? null;
  };
  const playType = wordOf('playType');
  const quarter = numberOf('quarter');
  const down = numberOf('down');
  const distance = numberOf('distance');
  const yardsToGoal = numberOf('yardsToGoal');
  const drive = numberOf('drive');
  const gain = numberOf('yardsGained');
  const kickLength = numberOf('kickLength');
  const returnYards = numberOf('returnYards');
  const fake = wordOf('fake');
  const replayed = wordOf('replayed');
  const result = nameReader(plays, 'snapResult', vocabulary, 'snapResult', RESULTS);
  const family = nameReader(plays, 'callFamily', vocabulary, 'callFamily', ['no-call']);
  const ledTo = namesReader(plays, 'ledTo', vocabulary, 'ledTo', LED_TO);
  const foul = foulReader(plays, vocabulary, wordOf, numberOf('foulYards'));

  return (play) => {
    const type = playType(play);
    const kind = KIND_OF_TYPE.get(type ?? '');
    if (type === null || kind === undefined) return null;
    return {
      playNumber: plays.playNumber[play] ?? 0,
      orderInGame: plays.orderInGame[play] ?? 0,
      chart: plays.chartIndex[play] ?? 0,
      playType: type,
      kind,
      offense: plays.offenseIsHome[play] ?? 0,
      quarter: quarter(play),
      down: down(play),
      distance: distance(play),
      yardsToGoal: yardsToGoal(play),
      drive: drive(play),
      gain: gain(play),
      kickLength: kickLength(play),
      returnYards: returnYards(play),
      isFake: fake(play) === 'yes',
      result: result(play),
      ledTo: ledTo(play),
      neverSnapped: family(play) === 'no-call',
      replayed: replayed(play) === null ? null : replayed(play) === 'yes',
      foul: foul(play),
    };
  };
}

function foulReader(
  plays: PlayColumns,
  vocabulary: Vocabulary,
  wordOf: (name: CodeFieldName) => (play: number) => string | null,
  yards: (play: number) => number | null,
): (play: number) => FoulFacts | null {
  const sides = wordOf('foulSide');
  const answers = wordOf('foulAnswer');
  const { codes } = plays.code('foul');
  const givesFirstDown = nameReader(plays, 'foul', vocabulary, 'foul', FIRST_DOWN_FOULS);
  return (play) => {
    const side = sides(play);
    const answer = answers(play);
    const isNamed = (codes[play] ?? -1) >= 0;
    if (!isNamed && side === null && answer === null && yards(play) === null) return null;
    return {
      side: side === 'offense' || side === 'defense' ? side : null,
      answer: answer === 'accepted' || answer === 'declined' || answer === 'offset' ? answer : null,
      yards: yards(play),
      mayGiveFirstDown: !isNamed || givesFirstDown(play) !== null,
    };
  };
}

/** Reads a term as the first of these starter terms that it counts as or rolls up to. */
function nameReader<const Name extends string>(
  plays: PlayColumns,
  field: CodeFieldName,
  vocabulary: Vocabulary,
  kind: string,
  names: readonly Name[],
): (play: number) => Name | null {
  const { codes, meanings } = plays.code(field);
  const named = namesOf(meanings, vocabulary, kind, names);
  return (play) => named[codes[play] ?? -1] ?? null;
}

function namesReader<const Name extends string>(
  plays: PlayColumns,
  field: ListFieldName,
  vocabulary: Vocabulary,
  kind: string,
  names: readonly Name[],
): (play: number) => ReadonlySet<Name> | null {
  const { starts, codes, meanings, known } = plays.list(field);
  const named = namesOf(meanings, vocabulary, kind, names);
  return (play) => {
    if (known[play] !== 1) return null;
    const held = new Set<Name>();
    for (let at = starts[play] ?? 0; at < (starts[play + 1] ?? 0); at += 1) {
      const name = named[codes[at] ?? -1];
      if (name !== undefined && name !== null) held.add(name);
    }
    return held;
  };
}

function namesOf<const Name extends string>(
  meanings: readonly number[],
  vocabulary: Vocabulary,
  kind: string,
  names: readonly Name[],
): readonly (Name | null)[] {
  const ids = names.map((name) => ({ name, id: vocabulary.idOfCode(`${kind}.${name}`) }));
  return meanings.map((meaning) => ids.find(({ id }) => vocabulary.isWithin(meaning, id))?.name ?? null);
}
