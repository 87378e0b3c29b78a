import {
  assertCount,
  assertCountTable,
  assertFinite,
  assertLength,
  assertNonNegative,
  assertOpenShares,
  assertOpenUnit,
  assertPositive,
  assertSameLength,
  assertShares,
  assertUnit,
} from './guards.js';

describe('guards', () => {
  it.each([
    [
      'a count at its limits',
      () => {
        assertCount('plays', 3, { min: 3, max: 3 });
      },
    ],
    [
      'a negative finite number',
      () => {
        assertFinite('yards', -3);
      },
    ],
    [
      'a number above 0',
      () => {
        assertPositive('weight', 1e-300);
      },
    ],
    [
      '0 where it may be',
      () => {
        assertNonNegative('weight', 0);
      },
    ],
    [
      'a probability inside',
      () => {
        assertOpenUnit('confidence', 0.5);
      },
    ],
    [
      'a share at either end',
      () => {
        [0, 1].forEach((share) => {
          assertUnit('share', share);
        });
      },
    ],
    [
      'shares that add up to 1 but for rounding',
      () => {
        assertShares('shares', [0.1, 0.2, 0.7000000001, 0]);
      },
    ],
    [
      'shares that are all open',
      () => {
        assertOpenShares('mean', [0.5, 0.5]);
      },
    ],
    [
      'a length between limits',
      () => {
        assertLength('list', [1, 2], { min: 2, max: 2 });
      },
    ],
    [
      'equal lengths',
      () => {
        assertSameLength('list', [1, 2], 2);
      },
    ],
    [
      'a table of counts',
      () => {
        assertCountTable(
          'table',
          [
            [1, 0],
            [3, 4],
          ],
          { rows: 2, columns: 2 },
        );
      },
    ],
  ])('let pass %s', (_, call) => {
    expect(call).not.toThrow();
  });

  it.each([
    [
      'stats.invalid_count',
      () => {
        assertCount('plays', 1.5, { min: 0 });
      },
    ],
    [
      'stats.invalid_count',
      () => {
        assertCount('plays', -1, { min: 0 });
      },
    ],
    [
      'stats.invalid_count',
      () => {
        assertCount('plays', 4, { min: 0, max: 3 });
      },
    ],
    [
      'stats.invalid_count',
      () => {
        assertCount('plays', Number.NaN, { min: 0 });
      },
    ],
    [
      'stats.invalid_count',
      () => {
        assertCount('plays', 2 ** 53, { min: 0 });
      },
    ],
    [
      'stats.invalid_number',
      () => {
        assertFinite('yards', Number.NaN);
      },
    ],
    [
      'stats.invalid_number',
      () => {
        assertPositive('weight', 0);
      },
    ],
    [
      'stats.invalid_number',
      () => {
        assertPositive('weight', Number.POSITIVE_INFINITY);
      },
    ],
    [
      'stats.invalid_number',
      () => {
        assertNonNegative('weight', -1e-9);
      },
    ],
    [
      'stats.invalid_probability',
      () => {
        assertOpenUnit('confidence', 1);
      },
    ],
    [
      'stats.invalid_probability',
      () => {
        assertOpenUnit('confidence', Number.NaN);
      },
    ],
    [
      'stats.invalid_probability',
      () => {
        assertUnit('share', 1.01);
      },
    ],
    [
      'stats.invalid_probability',
      () => {
        assertShares('shares', [0.5, 0.4]);
      },
    ],
    [
      'stats.invalid_shape',
      () => {
        assertShares('shares', []);
      },
    ],
    [
      'stats.invalid_probability',
      () => {
        assertOpenShares('mean', [1, 0]);
      },
    ],
    [
      'stats.invalid_shape',
      () => {
        assertOpenShares('mean', [1]);
      },
    ],
    [
      'stats.invalid_shape',
      () => {
        assertLength('list', [1, 2, 3], { min: 1, max: 2 });
      },
    ],
    [
      'stats.invalid_shape',
      () => {
        assertSameLength('list', [1], 2);
      },
    ],
    [
      'stats.invalid_shape',
      () => {
        assertCountTable('table', [[1, 2], [3]]);
      },
    ],
    [
      'stats.invalid_shape',
      () => {
        assertCountTable('table', [[1, 2]], { rows: 2 });
      },
    ],
    [
      'stats.invalid_count',
      () => {
        assertCountTable('table', [[1, -2]]);
      },
    ],
  ])('refuse with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });

  it('say in the details what was wrong', () => {
    expect(() => {
      assertCount('plays', 7, { min: 0, max: 3 });
    }).toThrow(expect.objectContaining({ details: { name: 'plays', value: 7, min: 0, max: 3 } }));
  });
});
