import fc from 'fast-check';
import { textTable } from './text-table.js';

const LONG = 'other passes 17, other runs 14, inside zone 7, outside zone 6, duo 4, zone read 4';

describe('a table in plain text', () => {
  it('is no wider than what it says', () => {
    expect(textTable(['call', 'plays'], [[['run'], ['12']]], 80)).toEqual(['call  plays', '----  -----', 'run   12']);
  });

  it('gives each of several long columns room', () => {
    const [header = '', rule = '', ...lines] = textTable(
      ['Situation', 'They call', 'Our mix', 'Always beaten'],
      [[['1st and 10 (63)'], [LONG, LONG], [LONG, LONG], [LONG]]],
      100,
    );
    expect(header).toMatch(/^Situation +They call +Our mix +Always beaten$/);
    expect(rule.split('  ').map(({ length }) => length >= 15)).toEqual([true, true, true, true]);
    expect(lines.length).toBeLessThan(10);
  });

  it('is never wider than it may be, and loses no word', () => {
    const word = fc.stringMatching(/^[a-z]{1,9}$/);
    const cell = fc.array(fc.array(word, { minLength: 1, maxLength: 30 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 5 })
          .chain((columns) =>
            fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: 1, maxLength: 4 }),
          ),
        fc.integer({ min: 60, max: 120 }),
        (rows, width) => {
          const headers = (rows[0] ?? []).map((_, column) => `h${column}`);
          const table = textTable(
            headers,
            rows.map((row) => row.map((lines) => lines.map((words) => words.join(' ')))),
            width,
          );
          expect(Math.max(...table.map(({ length }) => length))).toBeLessThanOrEqual(width);
          const printed = table
            .slice(2)
            .join(' ')
            .split(/ +/)
            .filter((each) => each !== '')
            .sort();
          expect(printed).toEqual(rows.flat(3).sort());
        },
      ),
    );
  });
});
