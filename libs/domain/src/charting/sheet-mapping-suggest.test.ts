import { checkMapping } from './sheet-mapping.js';
import { useByHeader } from './sheet-mapping-headers.js';
import { suggestMapping } from './sheet-mapping-suggest.js';
import { starterVocabulary } from './vocabulary.js';

const vocabulary = starterVocabulary();

describe('a suggested mapping', () => {
  const HEADERS = ['#', 'Ball', 'Situation', 'Yard line', 'Qtr', 'Look', 'Mystery', 'Weather', 'Gain', 'Comments'];
  const ROWS = [
    ['1', 'O', '1st & 10', '-25', 'Q1', 'gun trips rt', 'cover 3', 'dry', '6', 'late'],
    ['2', 'O', '2nd & 4', '-31', 'Q1', 'gun 2x2 jet', 'cover 1', 'wet', '-2', ''],
    ['3', 'D', '1 & goal', '+8', 'Q2', 'pistol slot lt', 'cover 3', 'dry', '8 yds', ''],
    ['4', 'D', '2 & 3', '+3', 'Q2', 'gun nub zip', 'quarters', '', '', ''],
  ];
  const suggested = suggestMapping(HEADERS, ROWS, vocabulary);
  const columnOf = (header: string) => suggested.columns.find((guess) => guess.header === header);

  it('goes by headers and by what the cells can be read as', () => {
    expect(suggested.draft.columns).toEqual([
      { header: '#', to: 'order' },
      { header: 'Ball', possession: { us: ['O'], them: ['D'] } },
      { header: 'Situation', read: 'down and distance' },
      { header: 'Yard line', read: 'signed spot' },
      { header: 'Qtr', to: 'quarter', read: 'first number' },
      { header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] },
      { header: 'Mystery', to: 'coverage' },
      { header: 'Gain', to: 'yardsGained', read: 'first number' },
      { header: 'Comments', to: 'note' },
    ]);
    expect(suggested.draft).toMatchObject({ constants: { playType: 'scrimmage' }, order: 'column', us: null });
  });

  it('is surer of a known header than of cells alone', () => {
    expect(columnOf('Situation')?.confidence).toBe(1);
    expect(columnOf('Look')?.confidence).toBe(0.75);
    expect(columnOf('Mystery')?.confidence).toBe(0.5);
    expect(columnOf('Weather')).toEqual({ header: 'Weather', column: null, confidence: 0 });
  });

  it('asks what only the person knows', () => {
    expect(suggested.questions).toEqual([
      { kind: 'word', header: 'Look', found: 'slot', question: expect.stringContaining('"slot"'), rows: 1 },
      { kind: 'left over', header: 'Look', found: 'nub zip', question: expect.any(String), rows: 1 },
      { kind: 'header', header: 'Weather', found: 'Weather', question: expect.any(String), rows: 3 },
      { kind: 'missing', header: '', found: 'game', question: expect.any(String), rows: 0 },
      { kind: 'missing', header: 'Ball', found: 'us', question: expect.any(String), rows: 0 },
    ]);
  });

  it('without rows goes by headers alone, and numbers rows that have no number', () => {
    const { draft, columns } = suggestMapping(['Dn', 'formation', 'zzz'], [], vocabulary);
    expect(draft.columns.map(({ header, to }) => [header, to])).toEqual([
      ['Dn', 'down'],
      ['formation', 'formation'],
    ]);
    expect(draft.order).toBe('rows');
    expect(columns.map(({ confidence }) => confidence)).toEqual([0.5, 0.5, 0]);
  });

  it('is a mapping that can be kept, once "us" is said', () => {
    expect(checkMapping({ ...suggested.draft, us: 'Mossback' }, vocabulary)).toEqual([]);
  });

  it('knows headers by the names of the fields and by what people write', () => {
    expect(useByHeader('yards_to_goal')).toEqual({ to: 'yardsToGoal' });
    expect(useByHeader('D & D')).toBeNull();
    expect(useByHeader('Down & Distance')).toEqual({ read: 'down and distance' });
  });
});
