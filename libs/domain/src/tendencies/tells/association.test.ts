import fc from 'fast-check';
import { cochranMantelHaenszel } from '../../statistics/cochran-mantel-haenszel.js';
import { associate, correctedDeviation, mantelFleiss } from './association.js';
import { callTables, testedTables } from './call-tables.js';
import type { Levels } from './levels.js';
import type { Strata } from './strata.js';

const aCode = fc.integer({ min: -1, max: 3 });
const aGroup = fc.array(fc.tuple(aCode, aCode), { minLength: 1, maxLength: 8 });

function levels(codes: number[]): Levels {
  return { codes: Int16Array.from(codes), count: 4, kept: [0, 1, 2, 3] };
}

function strata(groups: readonly (readonly unknown[])[]): Strata {
  const starts = [0];
  for (const group of groups) starts.push((starts.at(-1) ?? 0) + group.length);
  return {
    order: Int32Array.from({ length: starts.at(-1) ?? 0 }, (_, place) => place),
    starts: Int32Array.from(starts),
    games: Int32Array.from(groups, (_, group) => group),
    situations: Int32Array.from(groups, (_, group) => Math.floor(group / 4)),
    pools: Int32Array.from(groups, (_, group) => Math.floor(group / 4)),
    gameCount: groups.length,
    withoutSituation: 0,
  };
}

it('counts every pair of values as the plain test counts one', () => {
  fc.assert(
    fc.property(fc.array(aGroup, { minLength: 1, maxLength: 12 }), fc.nat(3), fc.nat(3), (groups, row, column) => {
      const plays = groups.flat();
      const [cue, call] = [levels(plays.map(([shown]) => shown)), levels(plays.map(([, called]) => called))];
      const all = strata(groups);
      const association = associate(cue, call, all);
      const cell = row * 4 + column;
      const tables = testedTables(callTables(cue, row, call, column, all));
      if ((association.variance[cell] ?? 0) === 0) {
        expect(() => cochranMantelHaenszel(tables, { continuity: true })).toThrow();
        return;
      }
      const plain = cochranMantelHaenszel(tables, { continuity: true });
      expect(correctedDeviation(association, cell) ** 2).toBeCloseTo(plain.statistic, 9);
      expect(mantelFleiss(association, cell)).toBeCloseTo(plain.mantelFleiss, 9);
    }),
  );
});

it('counts no play on which either is unknown', () => {
  const groups = [
    [
      [0, 1],
      [-1, 1],
      [0, -1],
      [1, 0],
    ],
  ] as const;
  const plays = groups.flat();
  const association = associate(
    levels(plays.map(([shown]) => shown)),
    levels(plays.map(([, called]) => called)),
    strata(groups),
  );
  expect(association.known).toBe(2);
  expect([...association.rowPlays]).toEqual([1, 1, 0, 0]);
});

it('compares plays that are alone in their game within the situation, and no others', () => {
  const both = [[0, 0]] as const;
  const neither = [[1, 1]] as const;
  const alone = [both, neither, both, neither];
  const plays = alone.flat();
  const [cue, call] = [levels(plays.map(([shown]) => shown)), levels(plays.map(([, called]) => called))];
  const together = associate(cue, call, strata(alone));
  expect([together.observed[0], together.expected[0]]).toEqual([2, 1]);
  // The same plays of four situations, or of four players, say nothing.
  const apart = { ...strata(alone), pools: Int32Array.from([0, 1, 2, 3]) };
  expect(associate(cue, call, apart).variance[0]).toBe(0);
});
