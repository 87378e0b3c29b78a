import fc from 'fast-check';
import { PLAY_FIELDS } from './play-fields.js';
import { placeOf } from './reconcile-scope.js';
import { checkMapping, columnLabels, headerFingerprint, type SheetColumn, type SheetMapping } from './sheet-mapping.js';
import { filledTargets, mappedSheet, type MappedRow } from './sheet-mapping-reader.js';
import { readNumbers } from './sheet-mapping-reads.js';
import { starterVocabulary } from './vocabulary.js';

const vocabulary = starterVocabulary();

function aMapping(columns: readonly SheetColumn[], rest: Partial<SheetMapping> = {}): SheetMapping {
  return { columns, constants: {}, answers: [], us: null, order: 'column', ...rest };
}

/** Known values as words; the play type, which every play has, is left out. */
function told({ values }: MappedRow): Record<string, unknown> {
  const entries = PLAY_FIELDS.flatMap((field, place): [string, unknown][] => {
    const value = values[place] ?? null;
    if (value === null || field.name === 'playType') return [];
    if (field.type === 'number' || typeof value !== 'number') return [[field.name, value]];
    return [[field.name, field.type === 'choice' ? field.choices[value] : vocabulary.byId(value)?.name]];
  });
  return Object.fromEntries(entries);
}

function read(mapping: SheetMapping, headers: readonly string[], cells: readonly string[]): MappedRow {
  expect(checkMapping(mapping, vocabulary)).toEqual([]);
  const sheet = mappedSheet(mapping, headers, vocabulary);
  expect(sheet.problems).toEqual([]);
  return sheet.read(cells);
}

describe('headers', () => {
  it('get a name each, so that doubled and empty ones can be told apart', () => {
    expect(columnLabels(['Note', ' ', 'NOTE', 'Down '])).toEqual(['Note', 'column 2', 'NOTE (2)', 'Down']);
  });

  it('are the same sheet in any order and spelling of case and spaces, and another one with another header', () => {
    expect(headerFingerprint(['Yards to goal', 'Dn'])).toBe(headerFingerprint(['DN', 'yards_to_goal']));
    expect(headerFingerprint(['Dn'])).not.toBe(headerFingerprint(['Dn', 'x']));
  });
});

describe('numbers as people write them', () => {
  it.each([
    ['first number', 'Q3', [[null, 3]]],
    ['first number', '-2 yds', [[null, -2]]],
    ['first number', 'none', null],
    [
      'down and distance',
      '3rd & 7',
      [
        ['down', 3],
        ['distance', 7],
      ],
    ],
    [
      'down and distance',
      '2-10',
      [
        ['down', 2],
        ['distance', 10],
      ],
    ],
    [
      'down and distance',
      '1st and Goal',
      [
        ['down', 1],
        ['distance', 'goal'],
      ],
    ],
    [
      'down and distance',
      '4 inches',
      [
        ['down', 4],
        ['distance', 1],
      ],
    ],
    ['down and distance', '5 & 2', null],
    ['own or opponent spot', 'Own 35', [['yardsToGoal', 65]]],
    ['own or opponent spot', 'opp 20', [['yardsToGoal', 20]]],
    ['own or opponent spot', 'midfield', [['yardsToGoal', 50]]],
    ['own or opponent spot', '35', null],
    ['own or opponent spot', 'own 60', null],
    ['signed spot', '-35', [['yardsToGoal', 65]]],
    ['signed spot', '\u221235', [['yardsToGoal', 65]]],
    ['signed spot', '+12', [['yardsToGoal', 12]]],
    ['signed spot', '0', null],
  ] as const)('%s reads "%s"', (how, cell, expected) => {
    const found = readNumbers(how, cell);
    expect(found?.map(({ field, number }) => [field, number]) ?? null).toEqual(expected);
  });

  it('put every spot between the goal lines', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 49 }), (yards) => {
        expect(readNumbers('signed spot', `-${yards}`)).toEqual([{ field: 'yardsToGoal', number: 100 - yards }]);
        expect(readNumbers('own or opponent spot', `own ${yards}`)).toEqual(readNumbers('signed spot', `-${yards}`));
        expect(readNumbers('own or opponent spot', `opp ${yards}`)).toEqual(readNumbers('signed spot', `${yards}`));
      }),
    );
  });
});

describe("a row of a person's sheet", () => {
  const HEADERS = ['Gm', 'O/D', 'D&D', 'Spot', 'Qtr', 'Look', 'Call', 'Mood', 'Note'];
  const mapping = aMapping(
    [
      { header: 'Gm', to: 'game' },
      { header: 'O/D', possession: { us: ['O'], them: ['D'] } },
      { header: 'D&D', read: 'down and distance' },
      { header: 'Spot', read: 'signed spot' },
      { header: 'Qtr', to: 'quarter', read: 'first number', words: [{ word: 'OT', is: { quarter: '5' } }] },
      { header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] },
      { header: 'Call', to: 'callFamily', words: [{ word: 'bootleg pass', is: { callFamily: 'moving pocket' } }] },
      { header: 'Mood', ignore: true },
    ],
    { us: 'Mossback', constants: { playType: 'scrimmage' }, answers: [{ word: 'slot', is: { formation: 'twins' } }] },
  );

  it('is read as the mapping says', () => {
    const row = read(mapping, HEADERS, ['g1', 'D', '3rd & 7', '-30', 'OT', 'gun slot rt', 'Bootleg Pass', 'sad', 'x']);
    expect(row).toMatchObject({
      keys: { game: 'g1', offense: 'Mossback', note: 'x' },
      offenseIsOther: true,
      findings: [],
      leftovers: [],
    });
    expect(told(row)).toEqual({
      ...{ down: 3, distance: 7, yardsToGoal: 70, quarter: 5 },
      ...{ backfield: 'shotgun', formation: 'twins', strength: 'right', callFamily: 'moving pocket' },
    });
    expect(row.values[placeOf('playType')]).toBe(0);
  });

  it('has as far to go as the goal line is, on goal to go', () => {
    expect(told(read(mapping, HEADERS, ['', '', '1 & goal', '8', '', '', '', '', '']))).toEqual({
      ...{ down: 1, distance: 8, yardsToGoal: 8 },
    });
  });

  it('says under which header something is wrong, or to be asked, and what was left over', () => {
    const row = read(mapping, HEADERS, ['g1', 'X', '9 & 9', '-30', '1', 'gun nub boundary', 'slot', '', '']);
    expect(row.findings).toEqual([
      { header: 'O/D', found: 'X', expected: 'one of: O, D' },
      { header: 'D&D', found: '9 & 9', expected: expect.stringContaining('3rd & 7') },
      { header: 'Look', found: 'boundary', expected: expect.stringContaining('"boundary"') },
    ]);
    expect(row.leftovers).toEqual([
      { header: 'Look', cell: 'gun nub boundary', words: ['nub'], reason: 'not understood' },
    ]);
  });

  it('is not split where it is prose', () => {
    const prose = 'gun '.repeat(200);
    expect(read(mapping, HEADERS, ['', '', '', '', '', prose]).findings).toEqual([
      { header: 'Look', found: prose, expected: 'at most 500 characters to split' },
    ]);
  });

  it('may not say two things of one field', () => {
    const twice = aMapping([
      { header: 'Dn', to: 'down' },
      { header: 'D&D', read: 'down and distance' },
    ]);
    expect(read(twice, ['Dn', 'D&D'], ['3', '3-2']).findings).toEqual([]);
    expect(read(twice, ['Dn', 'D&D'], ['2', '3-2']).findings).toEqual([
      { header: 'D&D', found: '3-2', expected: 'what another column says of down' },
    ]);
  });

  it('names the columns that nothing is known about', () => {
    const { problems } = mappedSheet(mapping, [...HEADERS, 'Weather'], vocabulary);
    expect(problems).toEqual([{ field: 'Weather', found: 'Weather', expected: expect.stringContaining('ignore') }]);
    expect(filledTargets(mapping, HEADERS)).toEqual(
      new Set([
        ...['playType', 'formation', 'game', 'offense', 'down', 'distance', 'yardsToGoal', 'quarter', 'backfield'],
        ...['strength', 'motion', 'callFamily', 'note'],
      ]),
    );
  });
});

describe('a mapping that cannot be', () => {
  it.each<[string, Partial<SheetMapping>, string]>([
    ['a column for two things', { columns: [{ header: 'a', to: 'down', ignore: true }] }, 'columns.0'],
    ['a column for nothing', { columns: [{ header: 'a' }] }, 'columns.0'],
    ['an unknown field', { columns: [{ header: 'a', to: 'colour' }] }, 'columns.0.to'],
    ['a field that words cannot tell apart', { columns: [{ header: 'a', split: ['down'] }] }, 'columns.0.split.0'],
    [
      'two fields of one kind',
      { columns: [{ header: 'a', split: ['designedGap', 'actualGap'] }] },
      'columns.0.split.1',
    ],
    ['nothing to split over', { columns: [{ header: 'a', split: [] }] }, 'columns.0.split'],
    [
      'one header twice',
      {
        columns: [
          { header: 'A b', ignore: true },
          { header: 'a_B', ignore: true },
        ],
      },
      'columns.1.header',
    ],
    ['possession without a player', { columns: [{ header: 'a', possession: { us: ['o'], them: [] } }] }, 'us'],
    [
      'a number read into a word',
      { columns: [{ header: 'a', to: 'formation', read: 'first number' }] },
      'columns.0.to',
    ],
    ['a constant that is no word', { constants: { playType: 'dance' } }, 'constants.playType'],
    ['an answer that is none', { answers: [{ word: 'x', is: { formation: 'dance' } }] }, 'answers.0.is.formation'],
    ['a word of nothing', { answers: [{ word: ' - ', is: {} }] }, 'answers.0.word'],
  ])('is told of: %s', (_what, part, field) => {
    expect(checkMapping(aMapping([], part), vocabulary)).toMatchObject([{ field }]);
  });
});
