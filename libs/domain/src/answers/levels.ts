import type { Vocabulary } from '../charting/vocabulary.js';
import { fieldCodes } from '../tendencies/dimension-codes.js';
import type { DimensionValue } from '../tendencies/dimension-names.js';
import { readDimension } from '../tendencies/dimensions.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** An offensive call as results are compared by: a concept, or the family where the concept is unknown or too rare. */
export interface CallLevel {
  /** The same in every batch. */
  readonly key: string;
  readonly label: string;
  readonly conceptId: number | null;
  /** Of a concept the family that it rolls up to. */
  readonly familyId: number | null;
}

/** A defensive call: front, coverage and pressure as far as they were seen. */
export interface AnswerLevel {
  readonly key: string;
  readonly label: string;
  readonly frontId: number | null;
  readonly coverageId: number | null;
  readonly pressureId: number | null;
  /** `rolled up`: too rare by itself, and counted with its like; `not seen`: nothing of it was. */
  readonly detail: 'as seen' | 'rolled up' | 'not seen';
}

export interface Levels<Level> {
  /** One a play: place in `levels`, -1 where there is none. */
  readonly codes: Int16Array;
  readonly levels: readonly Level[];
  /** Of each level the level that it would be rolled up to, itself where it is one. */
  readonly rolledUp: readonly number[];
}

// Choices, no source: fewer plays than this over a whole archive say nothing of a call that its kind does not say, and
// more levels than this cost more than they tell.
const FEWEST_PLAYS = 8;
const MOST_OWN = 120;

/** The offensive calls of a batch. */
export function callLevels(facts: TendencyPlays, vocabulary: Vocabulary): Levels<CallLevel> {
  const concept = fieldCodes('concept', facts, vocabulary);
  const family = fieldCodes('callFamily', facts, vocabulary);
  const familyOfConcept = concept.values.map(({ termId }) => (termId === null ? null : vocabulary.parentId(termId)));
  const levels = new LevelList<CallLevel>();
  const counts = countCodes(facts, concept.codes, concept.values.length);
  const own = mostFrequent(counts);
  const familyLevel = (id: number): number =>
    levels.place(`family:${id}`, () => ({
      label: `${vocabulary.byId(id)?.name ?? `term ${id}`} (concept rare or not seen)`,
      conceptId: null,
      familyId: id,
    }));
  const familyLevels = family.values.map(({ termId }) => (termId === null ? -1 : familyLevel(termId)));
  const conceptLevels = concept.values.map(({ termId, label }, code) => {
    const parent = familyOfConcept[code] ?? null;
    const rolled = parent === null ? -1 : familyLevel(parent);
    if (!own.has(code) || termId === null) return rolled;
    return levels.place(`concept:${termId}`, () => ({ label, conceptId: termId, familyId: parent }), rolled);
  });
  // A plain loop: typed arrays are mapped several times slower, and an archive has a million plays.
  const codes = new Int16Array(concept.codes.length).fill(-1);
  for (let play = 0; play < codes.length; play += 1) {
    const [code, familyCode] = [concept.codes[play] ?? -1, family.codes[play] ?? -1];
    const place = code < 0 ? -1 : (conceptLevels[code] ?? -1);
    codes[play] = place >= 0 || familyCode < 0 ? place : (familyLevels[familyCode] ?? -1);
  }
  return { codes, ...levels.done() };
}

/** The defensive calls of a batch. Parts that nobody saw stay open; a call of which nothing was seen is level 0. */
export function answerLevels(facts: TendencyPlays, vocabulary: Vocabulary): Levels<AnswerLevel> {
  const parts = (['front', 'coverage', 'pressure'] as const).map((name) => fieldCodes(name, facts, vocabulary));
  const [front, coverage, pressure] = parts;
  const families = readDimension('coverageFamily', facts, vocabulary);
  const rushes = readDimension('pressure', facts, vocabulary);
  const levels = new LevelList<AnswerLevel>();
  levels.place('not seen', () => ({ ...NOTHING, label: 'not seen', detail: 'not seen' as const }));
  if (front === undefined || coverage === undefined || pressure === undefined)
    return { codes: new Int16Array(0), ...levels.done() };

  const [coverages, pressures] = [coverage.values.length + 1, pressure.values.length + 1];
  const combined = new Int32Array(facts.plays.count);
  for (let play = 0; play < combined.length; play += 1) {
    const of = (codes: Int16Array): number => (codes[play] ?? -1) + 1;
    combined[play] = (of(front.codes) * coverages + of(coverage.codes)) * pressures + of(pressure.codes);
  }
  const counts = countCodes(facts, combined, (front.values.length + 1) * coverages * pressures);
  counts[0] = 0;
  const own = mostFrequent(counts);

  // Rolling up goes by what was played and not by how it was called, so that a play finds its like.
  const rushCodes = rushes.values.length + 1;
  const rolledLevels = new Map<number, number>();
  const rolledOf = (play: number): number => {
    const [family, rush] = [(families.codes[play] ?? -1) + 1, (rushes.codes[play] ?? -1) + 1];
    if (family === 0 && rush === 0) return 0;
    const key = family * rushCodes + rush;
    const known = rolledLevels.get(key);
    if (known !== undefined) return known;
    const label = [families.values[family - 1]?.label, rushes.values[rush - 1]?.label]
      .filter((part) => part !== undefined)
      .join(' + ');
    const place = levels.place(`kind:${label}`, () => ({
      ...NOTHING,
      label: `${label} (another kind)`,
      detail: 'rolled up' as const,
    }));
    rolledLevels.set(key, place);
    return place;
  };
  const ownLevels = new Int16Array(counts.length).fill(-1);
  const codes = new Int16Array(combined.length);
  for (let play = 0; play < codes.length; play += 1) {
    const cell = combined[play] ?? 0;
    if (cell === 0) continue;
    if (!own.has(cell)) {
      codes[play] = rolledOf(play);
      continue;
    }
    let place = ownLevels[cell] ?? -1;
    if (place < 0) {
      const values = [
        front.values[Math.floor(cell / (coverages * pressures)) - 1],
        coverage.values[(Math.floor(cell / pressures) % coverages) - 1],
        pressure.values[(cell % pressures) - 1],
      ] as const;
      place = levels.place(
        `call:${values.map((value) => value?.termId ?? '').join(':')}`,
        () => answerOf(values),
        rolledOf(play),
      );
      ownLevels[cell] = place;
    }
    codes[play] = place;
  }
  return { codes, ...levels.done() };
}

const NOTHING = { frontId: null, coverageId: null, pressureId: null };
const PART_NAMES = ['front', 'coverage', 'pressure'];

function answerOf(values: readonly (DimensionValue | undefined)[]): Omit<AnswerLevel, 'key'> {
  const [front, coverage, pressure] = values;
  const unseen = PART_NAMES.filter((_, place) => values[place] === undefined);
  const seen = values.flatMap((value) => (value === undefined ? [] : [value.label])).join(' + ');
  return {
    label: unseen.length === 0 ? seen : `${seen} (${unseen.join(' and ')} not seen)`,
    frontId: front?.termId ?? null,
    coverageId: coverage?.termId ?? null,
    pressureId: pressure?.termId ?? null,
    detail: 'as seen',
  };
}

/** Levels in the order in which they were first met. */
class LevelList<Level extends { readonly key: string }> {
  readonly #places = new Map<string, number>();
  readonly #levels: Level[] = [];
  readonly #rolledUp: number[] = [];

  /** @param rolledUp - place of the level that it would be rolled up to, itself when left out */
  place(key: string, make: () => Omit<Level, 'key'>, rolledUp?: number): number {
    const known = this.#places.get(key);
    if (known !== undefined) return known;
    const place = this.#levels.length;
    this.#places.set(key, place);
    this.#levels.push({ key, ...make() } as Level);
    this.#rolledUp.push(rolledUp === undefined || rolledUp < 0 ? place : rolledUp);
    return place;
  }

  done(): { readonly levels: readonly Level[]; readonly rolledUp: readonly number[] } {
    return { levels: this.#levels, rolledUp: this.#rolledUp };
  }
}

function countCodes({ counts }: TendencyPlays, codes: Int16Array | Int32Array, values: number): Int32Array {
  const found = new Int32Array(values);
  for (let play = 0; play < codes.length; play += 1) {
    const code = codes[play] ?? -1;
    if (code >= 0 && counts[play] === 1) found[code] = (found[code] ?? 0) + 1;
  }
  return found;
}

function mostFrequent(counts: Int32Array): ReadonlySet<number> {
  const enough = [...counts.keys()].filter((code) => (counts[code] ?? 0) >= FEWEST_PLAYS);
  const sorted = enough.sort((one, other) => (counts[other] ?? 0) - (counts[one] ?? 0) || one - other);
  return new Set(sorted.slice(0, MOST_OWN));
}
