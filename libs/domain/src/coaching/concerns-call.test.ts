import { starterVocabulary } from '../charting/vocabulary.js';
import { concernsCall } from './concerns-call.js';
import type { NoteTerms } from './note.js';

const VOCABULARY = starterVocabulary();
const id = (code: string): number => VOCABULARY.idOfCode(code);
const SILENT: NoteTerms = {
  ...{ callFamily: null, concept: null, formation: null },
  ...{ front: null, coverage: null, pressure: null },
};
const isAbout = (note: Partial<NoteTerms>, call: Partial<NoteTerms>): boolean =>
  concernsCall({ ...SILENT, ...note }, call, VOCABULARY);

describe('a coaching point', () => {
  const counter = id('concept.counter-read');

  it('is about the call that it names, also where it says more or less than was asked', () => {
    expect(isAbout({ concept: counter }, { concept: counter })).toBe(true);
    expect(isAbout({ concept: counter, formation: id('formation.three-by-one') }, { concept: counter })).toBe(true);
    expect(isAbout({ concept: counter }, { concept: counter, formation: id('formation.three-by-one') })).toBe(true);
  });

  it('is not about a call that it contradicts in one part, or of which it says nothing', () => {
    const trips = { concept: counter, formation: id('formation.three-by-one') };
    expect(isAbout(trips, { concept: counter, formation: id('formation.two-by-two') })).toBe(false);
    expect(isAbout({ concept: id('concept.mesh') }, { concept: counter })).toBe(false);
    expect(isAbout({ coverage: id('coverage.cover-3') }, { concept: counter })).toBe(false);
    expect(isAbout({}, { concept: counter })).toBe(false);
    expect(isAbout({ concept: counter }, {})).toBe(false);
  });

  it('on a term is about those under it, and the other way round', () => {
    const [family, own] = [id('coverage.cover-3'), id('coverage.cover-3-sky')];
    expect(isAbout({ coverage: family }, { coverage: own })).toBe(true);
    expect(isAbout({ coverage: own }, { coverage: family })).toBe(true);
  });
});
