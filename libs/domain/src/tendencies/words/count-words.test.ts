import {
  chanceWords,
  counted,
  knownNotes,
  ordinal,
  pValueWords,
  shareWords,
  successNotes,
  withCounts,
} from './count-words.js';

const INTERVAL = { lower: 0.51, upper: 0.897 };
const FIELD = { share: 0.81, count: 340, known: 420 };

it('never tells a share without its counts', () => {
  expect(shareWords({ count: 9, known: 12, interval: INTERVAL, field: FIELD })).toBe('9 of 12, 51-90 %, field 81 %');
  expect(shareWords({ count: 9, known: 12, interval: INTERVAL, field: null })).toBe('9 of 12, 51-90 %');
});

it('tells counts only below ten plays, of the player and of the field', () => {
  expect(shareWords({ count: 3, known: 9, interval: INTERVAL, field: FIELD })).toBe('3 of 9');
  const thin = { share: 0.75, count: 3, known: 4 };
  expect(shareWords({ count: 9, known: 12, interval: INTERVAL, field: thin })).toBe('9 of 12, 51-90 %, field 3 of 4');
});

it('says on how many plays something was known only where that is not all', () => {
  expect(knownNotes(12, 15)).toEqual(['known on 12 of 15']);
  expect(knownNotes(15, 15)).toEqual([]);
});

it('counts and numbers as people do', () => {
  expect([counted(1, 'game'), counted(2, 'game')]).toEqual(['1 game', '2 games']);
  expect([1, 2, 3, 4, 11, 12, 13, 21].map(ordinal)).toEqual([
    '1st',
    '2nd',
    '3rd',
    '4th',
    '11th',
    '12th',
    '13th',
    '21st',
  ]);
});

it('rounds p-values as people read them', () => {
  expect([0.0312, 0.00004, 1, 0.135, 0.2].map(pValueWords)).toEqual([
    'p 0.03',
    'p below 0.001',
    'p 1',
    'p 0.14',
    'p 0.2',
  ]);
  expect(chanceWords(0.2, 'more often')).toBe('no more than chance (p 0.2)');
});

it('tells successes only of what was tried', () => {
  const [none, some] = [
    { successes: 0, trials: 0 },
    { successes: 1, trials: 7 },
  ];
  expect(
    successNotes([
      ['forced', some],
      ['not forced', none],
    ]),
  ).toEqual(['succeeded forced 1 of 7']);
  expect(successNotes([['there', none]])).toEqual([]);
});

it('keeps two numbers in a row apart', () => {
  expect(withCounts('coverage cover 3', '9 of 12')).toBe('coverage cover 3, 9 of 12');
  expect(withCounts('run', '9 of 12')).toBe('run 9 of 12');
});
