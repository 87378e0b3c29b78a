import fc from 'fast-check';
import { playField, type PlayFieldName } from './play-fields.js';
import { canBeSplitInto, cellSplitter, wordsOf, type SplitCell } from './split-cell.js';
import { starterVocabulary, Vocabulary, type Term } from './vocabulary.js';

const vocabulary = starterVocabulary();
const FORMATION: readonly PlayFieldName[] = ['backfield', 'formation', 'strength', 'motion'];
const split = cellSplitter(FORMATION, vocabulary, []);

/** Values as words, which a person can read in a failure. */
function told({ values }: SplitCell): Record<string, unknown> {
  return Object.fromEntries(
    values.map(({ field: name, value }) => {
      const field = playField(name);
      if (field?.type === 'choice' && typeof value === 'number') return [name, field.choices[value]];
      return [
        name,
        typeof value === 'number' ? vocabulary.byId(value)?.name : value?.map((id) => vocabulary.byId(id)?.name),
      ];
    }),
  );
}

describe('a cell of several facts', () => {
  it.each([
    ['gun trips rt jet', { backfield: 'shotgun', formation: 'three by one', strength: 'right', motion: 'jet' }],
    ['JET / Rt-Trips, Gun', { backfield: 'shotgun', formation: 'three by one', strength: 'right', motion: 'jet' }],
    [
      'short gun 2x2 balanced static',
      { backfield: 'pistol', formation: 'two by two', strength: 'balanced', motion: 'none' },
    ],
    ['strong I twins l', { backfield: 'under center offset strong', formation: 'twins', strength: 'left' }],
    ['', {}],
    ['?', {}],
    ['n/a', {}],
  ])('"%s" is split by its words', (cell, values) => {
    expect(told(split(cell))).toEqual(values);
    expect(split(cell)).toMatchObject({ questions: [], conflicts: [], leftover: [] });
  });

  it('takes the longest phrase: gun empty is one place, not two', () => {
    expect(told(split('gun empty'))).toEqual({ backfield: 'shotgun empty' });
  });

  it('says what was left over, in runs', () => {
    expect(split('gun trips nasty big zip rt')).toMatchObject({
      found: ['gun', 'trips', 'rt'],
      leftover: ['nasty big zip'],
    });
  });

  it('lets the narrower of two terms count', () => {
    expect(told(split('trips bunch'))).toEqual({ formation: 'bunch' });
    expect(told(split('bunch trips'))).toEqual({ formation: 'bunch' });
  });

  it('takes neither of two that contradict each other', () => {
    const cell = split('gun trips twins');
    expect(told(cell)).toEqual({ backfield: 'shotgun' });
    expect(cell.conflicts).toEqual([{ field: 'formation', words: ['trips', 'twins'] }]);
  });

  it('asks about words that are never guessed, until they are answered', () => {
    expect(split('gun slot rt')).toMatchObject({
      questions: [{ words: 'slot', question: 'Is "slot" a receiver, a formation, or a defender?' }],
      leftover: [],
    });
    const twins = vocabulary.find('formation', 'twins');
    if (twins.status !== 'found') throw new Error('twins is a formation');
    const answered = cellSplitter(FORMATION, vocabulary, [
      { word: 'Slot', says: [{ field: 'formation', value: twins.term.id }] },
      { word: 'please', says: [] },
    ]);
    expect(told(answered('gun slot rt please'))).toEqual({
      backfield: 'shotgun',
      formation: 'twins',
      strength: 'right',
    });
    expect(answered('gun slot please')).toMatchObject({ questions: [], leftover: [] });
  });

  it('asks where two fields of the column know the word', () => {
    const both = cellSplitter(['backfield', 'offensivePersonnel'], vocabulary, []);
    expect(both('three backs')).toMatchObject({
      values: [],
      questions: [{ words: 'three backs', question: 'Is "three backs" here backfield or offensivePersonnel?' }],
    });
  });

  it("lets a clan's own word go before the starter term's", () => {
    const own: Term = {
      id: 90_001,
      kind: 'formation',
      code: null,
      name: 'our trips',
      parentId: null,
      starterId: null,
      synonyms: ['trips'],
    };
    const starters = FORMATION.flatMap((name) => {
      const field = playField(name);
      return field?.type === 'term' ? vocabulary.rows(field.kind) : [];
    });
    const ours = new Vocabulary([...starters, own]);
    expect(cellSplitter(FORMATION, ours, [])('trips').values).toEqual([{ field: 'formation', value: 90_001 }]);
  });

  it('gathers all terms of a list', () => {
    const adjustments = cellSplitter(['preSnapAdjustments'], vocabulary, []);
    expect(told(adjustments('audible to run, hard count'))).toEqual({
      preSnapAdjustments: ['check to run', 'hard count'],
    });
  });

  const knownWord = fc.constantFrom(
    ...FORMATION.flatMap((name) => {
      const field = playField(name);
      if (field?.type !== 'term') return ['left', 'rt', 'balanced'];
      return vocabulary.rows(field.kind).flatMap((term) => [term.name, ...term.synonyms]);
    }),
  );
  const anyCell = fc
    .array(fc.oneof(knownWord, fc.constantFrom('slot', 'zip', 'strong', '7', 'und'), fc.string({ maxLength: 6 })), {
      maxLength: 7,
    })
    .map((words) => words.join(' '));

  it('loses no word and counts none twice', () => {
    fc.assert(
      fc.property(anyCell, (cell) => {
        const { found, questions, leftover } = split(cell);
        const all = [...found, ...questions.map(({ words }) => words), ...leftover].flatMap((run) => run.split(' '));
        const words = split(cell) === split('') ? [] : wordsOf(cell);
        expect(all.sort()).toEqual([...words].sort());
      }),
    );
  });

  it('invents nothing: each value is that of a phrase it found', () => {
    fc.assert(
      fc.property(anyCell, (cell) => {
        const { values, found } = split(cell);
        for (const { field, value } of values) {
          const ofPhrases = found.flatMap((phrase) => split(phrase).values);
          expect(ofPhrases).toContainEqual({ field, value });
        }
      }),
    );
  });

  it('does not care for the order of phrases that stay the same phrases', () => {
    fc.assert(
      fc.property(anyCell, fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (cell, keys) => {
        const there = split(cell);
        const parts = [...there.found, ...there.questions.map(({ words }) => words), ...there.leftover];
        const shuffled = parts
          .map((part) => ({ part, key: keys.next().value ?? 0 }))
          .sort((one, other) => one.key - other.key)
          .map(({ part }) => part);
        const back = split(shuffled.join(' '));
        // Beside each other, words may make another phrase; then it is another cell.
        fc.pre([...back.found].sort().join('|') === [...there.found].sort().join('|'));
        expect(back.values).toEqual(there.values);
      }),
    );
  });

  it('is split into what words can tell apart', () => {
    const can = (name: string): boolean => {
      const field = playField(name);
      return field !== undefined && canBeSplitInto(field);
    };
    expect(['formation', 'strength', 'ledTo'].map(can)).toEqual([true, true, true]);
    expect(['playFake', 'down', 'nothing'].map(can)).toEqual([false, false, false]);
  });
});
