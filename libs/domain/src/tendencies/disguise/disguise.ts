import { UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { listMask } from '../../football/play-masks.js';
import type { DimensionValue } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import { Evidence } from '../evidence.js';
import type { VisibilityWarning } from '../profile-shape.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { visibilityWarning } from '../visibility.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { answeredShare, countAnswers, type Answers, type CountedShare } from '../decisions/counted-share.js';
import { DEFAULT_ANNOUNCED, disguiseOf } from './announced-coverages.js';

/** A shell shown and a coverage played behind it. */
export interface ShellCoverage {
  readonly shell: DimensionValue;
  readonly coverage: DimensionValue;
  readonly count: number;
  /** 1 disguised, 0 as announced, -1 where the pair does not settle it. */
  readonly disguised: number;
  readonly evidence: Evidence;
}

export interface ShellHonesty {
  readonly shell: DimensionValue;
  readonly disguised: CountedShare;
}

export interface Disguise {
  /** Counting snaps; those on which shell and coverage are both known, and those of them that settle the matter. */
  readonly snaps: number;
  readonly bothKnown: number;
  /** Disguised of those that settle it. */
  readonly disguised: CountedShare;
  /** By the shell shown, most often known first. */
  readonly byShell: readonly ShellHonesty[];
  /** Downs 1 to 4. */
  readonly byDown: readonly { readonly down: number; readonly disguised: CountedShare }[];
  /** Most frequent first. */
  readonly pairs: readonly ShellCoverage[];
  /** Shells that were still moving at the snap, of shells known; they announce nothing and are not disguises. */
  readonly lateMovers: CountedShare;
  /** Duels with a disguise moved late, of duels known. */
  readonly movedLate: CountedShare;
  /** Where knowing shell and coverage goes with how the play ended, so that the share may mislead. */
  readonly visibility: VisibilityWarning | null;
}

/**
 * Does the shell lie? What was shown before the snap against what was played after it: the share disguised, on how many
 * snaps that is known, by shell and by down, and who is still moving at the snap.
 *
 * @param asked     - plays that the player defended
 * @param announced - which coverages each shell announces, by code of the shell and names of coverages
 * @throws DomainError `stats.invalid_probability`, `vocabulary.unknown_code`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212; Newcombe (1998), Stat. Med. 17, 873–890 (visibility)
 */
export function disguise(
  asked: AskedPlays,
  announced: ReadonlyMap<string, readonly string[]> = DEFAULT_ANNOUNCED,
): Disguise {
  const { facts, field, player, vocabulary, confidence } = asked;
  const own = readAnswers(facts, vocabulary, announced);
  const others = field === null ? null : readAnswers(field.facts, vocabulary, announced);
  const places = counting(facts, allPlaces(facts));
  const fieldPlaces = field === null ? NOBODY : counting(field.facts, othersPlaces(field, player));

  const shareOf = (name: keyof LookAnswers, among: Int32Array, fieldOnes: Int32Array): CountedShare =>
    answeredShare(facts, own[name], among, others === null ? null : countAnswers(others[name], fieldOnes), confidence);
  const shells = readDimension('shell', facts, vocabulary);
  const fieldShells = field === null ? null : readDimension('shell', field.facts, vocabulary);
  const downs = facts.plays.number('down').values;
  const fieldDowns = field?.facts.plays.number('down').values;
  const pairs = pairsOf(facts, vocabulary, places, own.disguised);
  return {
    snaps: places.length,
    bothKnown: pairs.reduce((sum, { count }) => sum + count, 0),
    disguised: shareOf('disguised', places, fieldPlaces),
    byShell: shells.values
      .map((shell, code) => {
        const fieldCode = fieldShells?.values.findIndex(({ key }) => key === shell.key) ?? UNKNOWN_NUMBER;
        return {
          shell,
          disguised: shareOf(
            'disguised',
            places.filter((play) => shells.codes[play] === code),
            fieldPlaces.filter((play) => fieldShells?.codes[play] === fieldCode),
          ),
        };
      })
      .filter(({ disguised }) => disguised.known > 0)
      .sort((first, second) => second.disguised.known - first.disguised.known),
    byDown: [1, 2, 3, 4].map((down) => ({
      down,
      disguised: shareOf(
        'disguised',
        places.filter((play) => downs[play] === down),
        fieldPlaces.filter((play) => fieldDowns?.[play] === down),
      ),
    })),
    pairs,
    lateMovers: shareOf('lateMover', places, fieldPlaces),
    movedLate: shareOf('movedLate', places, fieldPlaces),
    visibility: visibilityWarning(facts, places, Int16Array.from(own.disguised)),
  };
}

const NOBODY = new Int32Array(0);

interface LookAnswers {
  readonly disguised: Answers;
  readonly lateMover: Answers;
  readonly movedLate: Answers;
}

function counting(facts: TendencyPlays, places: Int32Array): Int32Array {
  return places.filter((play) => facts.counts[play] === 1);
}

function readAnswers(
  facts: TendencyPlays,
  vocabulary: Vocabulary,
  announced: ReadonlyMap<string, readonly string[]>,
): LookAnswers {
  const shell = facts.plays.code('shell');
  const coverage = facts.plays.code('coverage');
  const late = vocabulary.idOfCode('shell.late-mover');
  // Every pair answered once, so that the loop only looks up.
  const table = shell.meanings.map((shellId) =>
    coverage.meanings.map((coverageId) => disguiseOf(shellId, coverageId, vocabulary, announced)),
  );
  const moved = listMask(facts.plays, 'preSnapAdjustments', vocabulary, ['preSnapAdjustment.disguise-moved-late']);
  const { known } = facts.plays.list('preSnapAdjustments');
  return {
    disguised: Int8Array.from(shell.codes, (code, play) => table[code]?.[coverage.codes[play] ?? -1] ?? -1),
    lateMover: Int8Array.from(shell.codes, (code) => (code < 0 ? -1 : shell.meanings[code] === late ? 1 : 0)),
    movedLate: Int8Array.from(known, (is, play) => (is === 1 ? (moved[play] ?? 0) : -1)),
  };
}

function pairsOf(
  facts: TendencyPlays,
  vocabulary: Vocabulary,
  places: Int32Array,
  disguised: Answers,
): ShellCoverage[] {
  const shells = readDimension('shell', facts, vocabulary);
  const coverages = readDimension('coverage', facts, vocabulary);
  return shells.values
    .flatMap((shell, shellCode) =>
      coverages.values.flatMap((coverage, coverageCode): ShellCoverage[] => {
        const belongs = (play: number): boolean =>
          shells.codes[play] === shellCode && coverages.codes[play] === coverageCode;
        const [first, ...rest] = places.filter(belongs);
        if (first === undefined) return [];
        const evidence = new Evidence(facts.plays, places, belongs);
        return [{ shell, coverage, count: 1 + rest.length, disguised: disguised[first] ?? -1, evidence }];
      }),
    )
    .sort((first, second) => second.count - first.count);
}
