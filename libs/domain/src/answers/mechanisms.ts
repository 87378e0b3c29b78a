import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { choiceMask } from '../football/play-masks.js';
import { benjaminiHochberg } from '../statistics/benjamini-hochberg.js';
import type { Interval } from '../statistics/interval.js';
import { differenceOf, type Counted } from '../tendencies/decisions/counted-share.js';
import { stratifiedPValue, tablesByStratum } from '../tendencies/decisions/stratified-p-value.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** Ways in which an answer can hold a call, as far as a chart tells. */
export const MECHANISMS = [
  'free rusher',
  'forced off the design',
  'block defeated',
  'passer pressured',
  'no gain or a loss',
  'explosive play',
] as const;
export type MechanismName = (typeof MECHANISMS)[number];

/** How often something happened when a defense went with an answer, and when it went with another. */
export interface Mechanism {
  readonly name: MechanismName;
  readonly with: Counted;
  /** On the same call, against other answers that were seen. */
  readonly without: Counted;
  /** Share with it less share without, Newcombe's interval; null where either is not known. */
  readonly difference: Interval | null;
  /** Two-sided, within games; null where nothing can be said. */
  readonly pValue: number | null;
  /** Whether it stands once all that was asked about is taken together (Benjamini-Hochberg). It went with the answer. */
  readonly established: boolean;
}

export interface MechanismSettings {
  readonly confidence: number;
  /** False discovery rate over all answers and mechanisms asked about, in (0, 1). */
  readonly level: number;
}

/** As for answers in the duel: see `DEFAULT_ANSWER_LEVEL` there for what a level of 0.05 lets through. */
export const MECHANISM_LEVEL = 0.05;

const FORCED = [
  'forced by a set edge',
  'forced by penetration',
  'forced by an unblocked rusher',
  'passer flushed',
  'forced, cause unseen',
];

/** 1 yes, 0 no, -1 not known, of each play of a batch. */
export type MechanismFlags = Readonly<Record<MechanismName, Int8Array>>;

/** Reads them off a batch, once for all questions about it. */
export function mechanismFlags(facts: TendencyPlays): MechanismFlags {
  const { plays } = facts;
  const choice = (field: 'unblockedRusher' | 'blockDefeated' | 'passerPressured'): Int8Array =>
    either(choiceMask(plays, field, ['yes']), choiceMask(plays, field, ['no']));
  const yards = plays.number('yardsGained').values;
  return {
    'free rusher': choice('unblockedRusher'),
    'forced off the design': either(
      choiceMask(plays, 'offDesign', FORCED),
      choiceMask(plays, 'offDesign', ['no', 'read by design']),
    ),
    'block defeated': choice('blockDefeated'),
    'passer pressured': choice('passerPressured'),
    'no gain or a loss': Int8Array.from(yards, (gain) => (gain === UNKNOWN_NUMBER ? -1 : gain <= 0 ? 1 : 0)),
    'explosive play': Int8Array.from(facts.explosive),
  };
}

function either(yes: Uint8Array, no: Uint8Array): Int8Array {
  return Int8Array.from(yes, (is, play) => (is === 1 ? 1 : no[play] === 1 ? 0 : -1));
}

/**
 * What moved with each answer to one call: rates with it against rates with other answers, tested within games, since a
 * game's defense and day go with everything in it. Defenses choose their answers, so this is what went with an answer
 * and not what it did.
 *
 * @param places  - plays of the call in the batch
 * @param belongs - for each answer asked about 1 where a play met it, 0 where it met another, -1 where that was not seen
 * @returns for each answer its mechanisms, those known on no play left out
 * @throws DomainError `stats.invalid_probability`
 * @see stratifiedPValue; Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function mechanisms(
  facts: TendencyPlays,
  flags: MechanismFlags,
  places: Int32Array,
  belongs: readonly Int8Array[],
  { confidence, level }: MechanismSettings,
): Mechanism[][] {
  const { chartIndex, offenseIsHome } = facts.plays;
  const sideOfGame = (play: number): number => 2 * (chartIndex[play] ?? 0) + (offenseIsHome[play] ?? 0);
  const asked = belongs.map((of) =>
    MECHANISMS.flatMap((name) => {
      const flag = flags[name];
      const counted = (row: number): Counted => {
        let [count, known] = [0, 0];
        for (const play of places) {
          if (of[play] !== row || (flag[play] ?? -1) < 0) continue;
          known += 1;
          count += flag[play] ?? 0;
        }
        return { count, known };
      };
      const [with_, without] = [counted(1), counted(0)];
      if (with_.known === 0) return [];
      const tables = tablesByStratum(
        places,
        sideOfGame,
        (play) => of[play] ?? -1,
        (play) => flag[play] ?? -1,
      );
      return [{ name, with: with_, without, pValue: stratifiedPValue(tables) }];
    }),
  );
  const tested = asked.flat().filter(({ pValue }) => pValue !== null);
  const { rejected } = benjaminiHochberg(
    tested.map(({ pValue }) => pValue ?? 1),
    level,
  );
  const established = new Set(tested.filter((_, at) => rejected[at] === true));
  return asked.map((ofAnswer) =>
    ofAnswer.map((one) => ({
      ...one,
      difference: differenceOf(one.with, one.without, confidence),
      established: established.has(one),
    })),
  );
}
