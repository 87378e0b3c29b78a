import { createHash } from 'node:crypto';
import { normaliseTerm } from './normalise-term.js';
import { TERM_KINDS } from './play-fields.js';
import { ASK_NEVER_GUESS, STARTER_TERMS } from './starter-vocabulary.js';

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;
const TERMS_BY_CODE = new Map(STARTER_TERMS.map((term) => [term.code, term]));

/** `kind: word` of every name and synonym, as compared. */
function allWords(): string[] {
  return STARTER_TERMS.flatMap(({ kind, name, synonyms }) =>
    [name, ...synonyms].map((text) => `${kind}: ${normaliseTerm(text)}`),
  );
}

describe('the starter vocabulary', () => {
  // Terms, synonyms and parents, counted in the tables it was transcribed from.
  it.each([
    { kind: 'formation', terms: 30, synonyms: 51, parents: 15 },
    { kind: 'backfield', terms: 19, synonyms: 30, parents: 15 },
    { kind: 'motion', terms: 17, synonyms: 34, parents: 6 },
    { kind: 'offensivePersonnel', terms: 20, synonyms: 21, parents: 14 },
    { kind: 'defensivePersonnel', terms: 17, synonyms: 27, parents: 11 },
    { kind: 'callFamily', terms: 23, synonyms: 37, parents: 0 },
    { kind: 'concept', terms: 76, synonyms: 123, parents: 76 },
    { kind: 'runPassOptionTag', terms: 8, synonyms: 10, parents: 0 },
    { kind: 'gap', terms: 9, synonyms: 14, parents: 5 },
    { kind: 'targetDepth', terms: 8, synonyms: 10, parents: 0 },
    { kind: 'targetZone', terms: 13, synonyms: 23, parents: 0 },
    { kind: 'role', terms: 10, synonyms: 13, parents: 0 },
    { kind: 'front', terms: 19, synonyms: 35, parents: 11 },
    { kind: 'alignmentAdjustment', terms: 27, synonyms: 43, parents: 0 },
    { kind: 'shell', terms: 9, synonyms: 14, parents: 0 },
    { kind: 'coverage', terms: 29, synonyms: 45, parents: 26 },
    { kind: 'pressure', terms: 12, synonyms: 20, parents: 0 },
    { kind: 'pressurePath', terms: 4, synonyms: 7, parents: 0 },
    { kind: 'pressureSide', terms: 6, synonyms: 6, parents: 0 },
    { kind: 'pressureSource', terms: 11, synonyms: 16, parents: 0 },
    { kind: 'manualDefenderAction', terms: 15, synonyms: 22, parents: 0 },
    { kind: 'preSnapAdjustment', terms: 30, synonyms: 52, parents: 0 },
    { kind: 'tempo', terms: 7, synonyms: 12, parents: 0 },
    { kind: 'snapResult', terms: 23, synonyms: 32, parents: 3 },
    { kind: 'ledTo', terms: 15, synonyms: 19, parents: 0 },
    { kind: 'foul', terms: 16, synonyms: 20, parents: 0 },
  ])('has $terms terms, $synonyms synonyms and $parents parents of kind $kind', (expected) => {
    const rows = STARTER_TERMS.filter(({ kind }) => kind === expected.kind);
    expect(rows).toHaveLength(expected.terms);
    expect(rows.flatMap(({ synonyms }) => synonyms)).toHaveLength(expected.synonyms);
    expect(rows.filter(({ parent }) => parent !== undefined)).toHaveLength(expected.parents);
  });

  it('has terms of every kind, and 473 of them', () => {
    expect(new Set(STARTER_TERMS.map(({ kind }) => kind))).toEqual(new Set(TERM_KINDS));
    expect(STARTER_TERMS.length).toBeGreaterThanOrEqual(473);
  });

  it('keeps the order in which ids were handed out: terms are only ever appended', () => {
    const firstCodes = STARTER_TERMS.slice(0, 473).map(({ code }) => code);
    expect(createHash('sha256').update(firstCodes.join('\n')).digest('hex')).toBe(
      'ee0e7080ca8fc90cd9698cc6d23f0617509f29a06c4398a8bd93376a294ad998',
    );
  });

  it('has unique codes, each its kind and a slug', () => {
    expect(TERMS_BY_CODE.size).toBe(STARTER_TERMS.length);
    for (const { code, kind } of STARTER_TERMS) {
      const [prefix, slug] = code.split('.');
      expect(prefix).toBe(kind);
      expect(slug).toMatch(SLUG);
    }
  });

  it('uses a word for one term inside its kind', () => {
    const words = allWords();
    expect(new Set(words).size).toBe(words.length);
  });

  it("has every parent: of the same kind, or a concept's call family", () => {
    for (const { kind, parent } of STARTER_TERMS) {
      if (parent === undefined) continue;
      expect(TERMS_BY_CODE.get(parent)?.kind).toBe(kind === 'concept' ? 'callFamily' : kind);
    }
  });

  it('says run or pass on call families only, and on those that fix it', () => {
    const called = STARTER_TERMS.filter((term) => term.called !== undefined);
    expect(called.map((term) => `${term.code} ${term.called ?? ''}`)).toEqual([
      'callFamily.run run',
      'callFamily.draw run',
      'callFamily.designed-quarterback-run run',
      'callFamily.option run',
      'callFamily.dropback-pass pass',
      'callFamily.quick-pass pass',
      'callFamily.play-action pass',
      'callFamily.moving-pocket pass',
      'callFamily.screen pass',
    ]);
  });

  it('says which side makes each pre-snap adjustment, and nothing of the kind elsewhere', () => {
    const sides = (kind: string): (string | undefined)[] =>
      STARTER_TERMS.filter((term) => term.kind === kind).map(({ by }) => by);
    expect(sides('preSnapAdjustment').filter((by) => by === 'offense')).toHaveLength(16);
    expect(sides('preSnapAdjustment').filter((by) => by === 'defense')).toHaveLength(14);
    expect(STARTER_TERMS.filter(({ by }) => by !== undefined)).toHaveLength(30);
  });

  it('puts target zones into lanes where they lie in one', () => {
    const inLane = (wanted: string): string[] =>
      STARTER_TERMS.filter(({ lane }) => lane === wanted).map(({ code }) => code);
    expect(inLane('left')).toEqual(['targetZone.outside-left', 'targetZone.inside-left']);
    expect(inLane('middle')).toEqual(['targetZone.middle', 'targetZone.middle-hole', 'targetZone.deep-middle']);
    expect(inLane('right')).toEqual(['targetZone.inside-right', 'targetZone.outside-right']);
  });
});

describe('words that are asked about', () => {
  it('has 31 of them, each once, with a question', () => {
    expect(new Set(ASK_NEVER_GUESS.map(({ word }) => normaliseTerm(word))).size).toBe(31);
    expect(ASK_NEVER_GUESS).toHaveLength(31);
    for (const { question } of ASK_NEVER_GUESS) expect(question).toMatch(/\?/);
  });

  it('lists exactly the kinds in which the word is a name or synonym', () => {
    const words = new Set(allWords());
    for (const { word, kinds } of ASK_NEVER_GUESS) {
      expect({ word, kinds: [...kinds] }).toEqual({
        word,
        kinds: TERM_KINDS.filter((kind) => words.has(`${kind}: ${normaliseTerm(word)}`)),
      });
    }
  });
});
