import fc from 'fast-check';
import { benjaminiHochberg } from './benjamini-hochberg.js';
import { twoLevelSelection } from './two-level-selection.js';
import { seededRandom } from './seeded-random.js';

describe('two-level selection', () => {
  // By hand: two of four families pass at 0.1, so their members are judged at 0.05.
  it('judges members at the level times the share of families selected', () => {
    const families = [
      { pValue: 0.001, members: [0.02, 0.06, 0.9] },
      { pValue: 0.04, members: [0.024, 0.05] },
      { pValue: 0.6, members: [0.001] },
      { pValue: 0.8, members: [0.7] },
    ];
    expect(twoLevelSelection(families, 0.1)).toEqual([
      { selected: true, rejected: [false, false, false] },
      { selected: true, rejected: [true, true] },
      { selected: false, rejected: [false] },
      { selected: false, rejected: [false] },
    ]);
  });

  const pValues = fc.double({ min: 0, max: 1, noNaN: true });
  const families = fc.array(fc.record({ pValue: pValues, members: fc.array(pValues, { maxLength: 8 }) }), {
    maxLength: 12,
  });

  it('finds members only in selected families, and no more than each family alone would', () => {
    fc.assert(
      fc.property(families, (list) => {
        for (const [index, { selected, rejected }] of twoLevelSelection(list, 0.2).entries()) {
          const alone = benjaminiHochberg(list[index]?.members ?? [], 0.2).rejected;
          for (const [member, found] of rejected.entries()) {
            expect(found && !selected).toBe(false);
            expect(found && alone[member] === false).toBe(false);
          }
        }
      }),
    );
  });

  it('is the plain procedure where there is one family and it is selected', () => {
    fc.assert(
      fc.property(fc.array(pValues), (members) => {
        const [selection] = twoLevelSelection([{ pValue: 0.01, members }], 0.1);
        expect(selection?.rejected).toEqual(benjaminiHochberg(members, 0.1).rejected);
      }),
    );
  });

  // Twelve of sixty families hold one true effect among ten tests; the family's p-value is Simes's.
  it('keeps the average share of false findings over selected families below the level', () => {
    const random = seededRandom(101);
    const leagues = 300;
    let falseShare = 0;
    for (let league = 0; league < leagues; league += 1) {
      const simulated = Array.from({ length: 60 }, (_, index) => {
        const members = Array.from({ length: 10 }, () => random());
        if (index < 12) members[0] = (members[0] ?? 0) * 0.001;
        return { pValue: Math.min(...benjaminiHochberg(members, 0.1).adjusted), members };
      });
      const selections = twoLevelSelection(simulated, 0.1);
      const shares = selections.flatMap(({ selected, rejected }, index) => {
        if (!selected) return [];
        const wrong = rejected.filter((found, member) => found && !(index < 12 && member === 0)).length;
        return [wrong / Math.max(1, rejected.filter(Boolean).length)];
      });
      falseShare += shares.reduce((sum, share) => sum + share, 0) / Math.max(1, shares.length) / leagues;
    }
    // The standard error over 300 leagues is near 0.004.
    expect(falseShare).toBeLessThan(0.1 + 0.01);
    expect(falseShare).toBeGreaterThan(0);
  });

  it('selects nothing among nothing', () => {
    expect(twoLevelSelection([], 0.1)).toEqual([]);
  });

  it.each([
    [[{ pValue: 2, members: [] }], 0.1],
    [[{ pValue: 0.9, members: [Number.NaN] }], 0.1],
    [[{ pValue: 0.9, members: [] }], 1],
  ])('refuses %j at %d', (list, level) => {
    expect(() => twoLevelSelection(list, level)).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
  });
});
