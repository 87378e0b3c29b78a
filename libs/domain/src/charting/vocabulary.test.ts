import fc from 'fast-check';
import { DomainError } from '../domain-error.js';
import { TERM_KINDS, type TermKind } from './play-fields.js';
import { ASK_NEVER_GUESS, STARTER_TERMS } from './starter-vocabulary.js';
import { calledRunOrPass, starterVocabulary, Vocabulary, type Term } from './vocabulary.js';

const OWN = 10_000;
const starter = starterVocabulary();
const starterTerms = TERM_KINDS.flatMap((kind) => starter.rows(kind));

/** A clan's own formation that stands for nothing. */
function aTerm(overrides: Partial<Term> = {}): Term {
  const plain = { kind: 'formation', code: null, parentId: null, starterId: null, synonyms: [] } as const;
  return { id: OWN, name: 'ocean', ...plain, ...overrides };
}

/** The starter terms and a clan's own. */
function withOwn(...own: readonly Partial<Term>[]): Vocabulary {
  return new Vocabulary([...starterTerms, ...own.map((term, index) => aTerm({ id: OWN + index, ...term }))]);
}

function foundCode(vocabulary: Vocabulary, kind: TermKind, text: string): string | null {
  const found = vocabulary.find(kind, text);
  return found.status === 'found' ? found.term.code : null;
}

describe('finding a term', () => {
  it.each<[TermKind, string, string]>([
    ['backfield', ' GÜN ', 'backfield.shotgun'],
    ['formation', 'Trips', 'formation.three-by-one'],
    ['formation', '3X1', 'formation.three-by-one'],
    ['formation', 'three-by-one', 'formation.three-by-one'],
    ['coverage', 'Tampa-2', 'coverage.cover-2-middle-run-through'],
    ['coverage', 'zero', 'coverage.cover-0'],
    ['callFamily', 'rpo', 'callFamily.run-pass-option'],
    ['motion', 'none', 'motion.none'],
    ['snapResult', 'Sack', 'snapResult.sacked'],
  ])('finds %s %j', (kind, text, code) => {
    expect(foundCode(starter, kind, text)).toBe(code);
  });

  it('finds every starter term by its name and by each synonym', () => {
    for (const term of starterTerms) {
      for (const word of [term.name, ...term.synonyms]) {
        expect(starter.find(term.kind, word.toUpperCase())).toEqual({ status: 'found', term });
      }
    }
  });

  it('asks about a word that means several things', () => {
    expect(starter.find('front', 'Bear')).toEqual({ status: 'ask', question: expect.stringContaining('front') });
    expect(starter.find('coverage', 'COVER-7')).toMatchObject({ status: 'ask' });
    expect(starter.find('pressureSource', 'nickel')).toMatchObject({ status: 'ask' });
  });

  it('never asks about a word in a kind that lists it, and asks in every other', () => {
    for (const { word, question, kinds } of ASK_NEVER_GUESS) {
      for (const kind of TERM_KINDS) {
        const found = starter.find(kind, word);
        if (kinds.includes(kind)) expect(found.status).toBe('found');
        else expect(found).toEqual({ status: 'ask', question });
      }
    }
  });

  it("takes a clan's own meaning of a word that is otherwise asked about", () => {
    const bear = aTerm({ kind: 'front', name: 'bear', starterId: starter.idOfCode('front.double-eagle') });
    expect(withOwn(bear).find('front', 'Bear')).toEqual({ status: 'found', term: bear });
  });

  it.each<[TermKind, string, readonly string[]]>([
    ['formation', 'trisp', ['three by one']],
    ['backfield', 'shotgn', ['shotgun']],
    ['backfield', 'gum', ['shotgun']],
    ['coverage', 'tampa two', ['cover 2 middle run-through']],
    ['tempo', 'hudle', ['huddle']],
    ['gap', 'E gap', ['A gap', 'B gap', 'C gap']],
    ['concept', 'xz', []],
    ['formation', 'a cell that says something else altogether', []],
    ['formation', '', []],
    ['formation', ' - ', []],
  ])('suggests for %s %j what may have been meant', (kind, text, suggestions) => {
    expect(starter.find(kind, text)).toMatchObject({ status: 'unknown', suggestions });
  });

  it('suggests the nearest name first', () => {
    const own = [{ name: 'harbour light' }, { name: 'harbour nights' }, { name: 'harbour night' }];
    expect(withOwn(...own).find('formation', 'harbour nigth')).toMatchObject({
      status: 'unknown',
      suggestions: ['harbour night', 'harbour light', 'harbour nights'],
    });
  });

  it('has a suggestion for any single slip in a name of four letters or more', () => {
    const named = fc.constantFrom(...starterTerms.filter(({ name }) => name.length >= 4));
    fc.assert(
      fc.property(named, fc.nat(), ({ kind, name }, place) => {
        const at = place % name.length;
        const found = starter.find(kind, `${name.slice(0, at)}§${name.slice(at + 1)}`);
        expect(found.status).toBe('unknown');
        if (found.status === 'unknown') expect(found.suggestions.length).toBeGreaterThan(0);
      }),
    );
  });

  it('has nothing to suggest in a kind without terms', () => {
    expect(new Vocabulary([]).find('front', 'four down over')).toMatchObject({ status: 'unknown', suggestions: [] });
  });

  it('finds nothing in an empty cell, even where a synonym is nothing but a dash', () => {
    const vocabulary = withOwn({ synonyms: ['-'] }, { name: 'tide', synonyms: ['--'] });
    expect(vocabulary.find('formation', '')).toMatchObject({ status: 'unknown', suggestions: [] });
  });

  it("lets a clan's own word win over a starter term's, wherever it stands in the list", () => {
    const own = aTerm({ name: 'trips' });
    for (const vocabulary of [withOwn(own), new Vocabulary([own, ...starterTerms])]) {
      expect(vocabulary.find('formation', 'trips')).toEqual({ status: 'found', term: own });
      expect(foundCode(vocabulary, 'formation', 'three by one')).toBe('formation.three-by-one');
    }
  });
});

describe('what a term counts as', () => {
  const trips = starter.idOfCode('formation.three-by-one');
  const bunch = starter.idOfCode('formation.bunch');
  const tightBunch = starter.idOfCode('formation.bunch-tight-to-the-line');

  it("counts a clan's own term as the starter term it stands for, or as itself", () => {
    const vocabulary = withOwn({ name: 'ocean', starterId: bunch }, { name: 'harbour' });
    expect(vocabulary.canonicalId(OWN)).toBe(bunch);
    expect(vocabulary.canonicalId(OWN + 1)).toBe(OWN + 1);
    expect(vocabulary.canonicalId(bunch)).toBe(bunch);
  });

  it("does not know another clan's term", () => {
    expect(starter.byId(OWN)).toBeUndefined();
    expect(starter.canonicalId(OWN)).toBeNull();
    expect(starter.parentId(OWN)).toBeNull();
    expect(starter.isWithin(OWN, OWN)).toBe(false);
    expect(starter.isWithin(OWN, trips)).toBe(false);
  });

  it('rolls up to parents and further', () => {
    expect(starter.parentId(tightBunch)).toBe(bunch);
    expect(starter.parentId(trips)).toBeNull();
    expect(starter.isWithin(tightBunch, trips)).toBe(true);
    expect(starter.isWithin(trips, trips)).toBe(true);
    expect(starter.isWithin(trips, tightBunch)).toBe(false);
    expect(starter.isWithin(starter.idOfCode('concept.slants'), starter.idOfCode('callFamily.quick-pass'))).toBe(true);
  });

  it('rolls up through what own terms stand for', () => {
    const vocabulary = withOwn(
      { name: 'ocean', starterId: bunch, parentId: starter.idOfCode('formation.heavy') },
      { name: 'ocean short', parentId: OWN },
    );
    expect(vocabulary.parentId(OWN)).toBe(trips);
    expect(vocabulary.parentId(OWN + 1)).toBe(bunch);
    expect(vocabulary.isWithin(OWN + 1, OWN)).toBe(true);
    expect(vocabulary.isWithin(OWN + 1, trips)).toBe(true);
    expect(vocabulary.isWithin(bunch, OWN)).toBe(true);
  });

  it('numbers starter terms from 1 in the order of the list', () => {
    STARTER_TERMS.forEach(({ code }, index) => {
      expect(starter.idOfCode(code)).toBe(index + 1);
      expect(starter.byId(index + 1)?.code).toBe(code);
    });
  });

  it('lists the terms of a kind in their order', () => {
    expect(starter.rows('pressurePath').map(({ name }) => name)).toEqual([
      'interior',
      'edge pressure',
      'interior and edge',
      'cross of two linebackers',
    ]);
    expect(new Vocabulary([]).rows('front')).toEqual([]);
  });
});

describe('run or pass called', () => {
  const id = (code: string): number => starter.idOfCode(code);

  it.each<[string | null, string | null, 'run' | 'pass' | null]>([
    ['callFamily.draw', null, 'run'],
    ['callFamily.screen', null, 'pass'],
    [null, 'concept.inside-zone', 'run'],
    [null, 'concept.slants', 'pass'],
    [null, 'concept.zone-read', 'run'],
    [null, 'concept.reverse', null], // a gadget may be either
    ['callFamily.run-pass-option', 'concept.inside-zone', null], // the family wins, and leaves it open
    ['callFamily.play-action', 'concept.inside-zone', 'pass'],
    ['callFamily.kneel', null, null],
    [null, null, null],
  ])('is for family %s and concept %s: %s', (family, concept, expected) => {
    const familyId = family === null ? null : id(family);
    const conceptId = concept === null ? null : id(concept);
    expect(calledRunOrPass(starter, familyId, conceptId)).toBe(expected);
  });

  it("follows a clan's own terms to what they stand for or roll up to", () => {
    const vocabulary = withOwn(
      { kind: 'callFamily', name: 'rocket', starterId: id('callFamily.quick-pass') },
      { kind: 'concept', name: 'rocket left', parentId: OWN },
      { kind: 'callFamily', name: 'anything goes' },
    );
    expect(calledRunOrPass(vocabulary, OWN, null)).toBe('pass');
    expect(calledRunOrPass(vocabulary, null, OWN + 1)).toBe('pass');
    expect(calledRunOrPass(vocabulary, OWN + 2, id('concept.power'))).toBeNull();
  });

  it("treats another clan's family as unknown", () => {
    expect(calledRunOrPass(starter, OWN, id('concept.power'))).toBe('run');
    expect(calledRunOrPass(starter, OWN, OWN + 1)).toBeNull();
  });
});

describe('what a vocabulary refuses', () => {
  const bunch = starter.idOfCode('formation.bunch');

  it.each<[string, () => unknown]>([
    ['vocabulary.duplicate_term', () => withOwn({ id: 1 })],
    ['vocabulary.duplicate_term', () => withOwn({ code: 'formation.pro' })],
    ['vocabulary.ambiguous_word', () => withOwn({ name: 'Ocean' }, { name: 'tide', synonyms: ['OCÉAN'] })],
    ['vocabulary.ambiguous_word', () => withOwn({ code: 'formation.ocean', name: 'trips' })],
    ['vocabulary.invalid_reference', () => withOwn({ parentId: OWN + 1 })],
    ['vocabulary.invalid_reference', () => withOwn({ starterId: OWN + 1 })],
    ['vocabulary.invalid_reference', () => withOwn({ kind: 'front', starterId: bunch })],
    ['vocabulary.invalid_reference', () => withOwn({ starterId: OWN + 1 }, { name: 'tide', starterId: bunch })],
    ['vocabulary.cycle', () => withOwn({ parentId: OWN })],
    ['vocabulary.cycle', () => withOwn({ parentId: OWN + 1 }, { name: 'tide', parentId: OWN })],
    ['vocabulary.unknown_code', () => starter.idOfCode('formation.ocean')],
  ])('throws %s', (code, act) => {
    expect(act).toThrow(DomainError);
    expect(act).toThrow(expect.objectContaining({ code }));
  });

  it('allows a word in several kinds, and a synonym that repeats its own name', () => {
    expect(() => withOwn({ name: 'ocean', synonyms: ['Ocean'] }, { kind: 'front', name: 'ocean' })).not.toThrow();
  });

  it('sees no cycle where a term names as parent what stands for the same term', () => {
    const vocabulary = withOwn({ starterId: bunch, parentId: OWN });
    expect(vocabulary.parentId(OWN)).toBe(starter.idOfCode('formation.three-by-one'));
  });
});
