import { times, type ChartedRow } from '../tendencies/charted-rows.js';
import { callGrid } from './call-grid.js';
import { profiledSide } from './report-sample.js';

const first: ChartedRow = { down: 1, distance: 10, yardsToGoal: 60 };
const third: ChartedRow = { down: 3, distance: 8, yardsToGoal: 60 };

function gridOf(side: 'offense' | 'defense', rows: readonly ChartedRow[]): ReturnType<typeof callGrid> {
  const { facts, profile } = profiledSide(side, [rows], []);
  return callGrid({ side, facts }, profile);
}

describe('situations against calls', () => {
  it('counts each call in each situation, all snaps first, unknown calls left out', () => {
    const grid = gridOf('offense', [
      ...times(4, { ...first, callFamily: 'callFamily.run' }),
      ...times(2, { ...third, callFamily: 'callFamily.screen' }),
      { ...third, callFamily: 'callFamily.run' },
      third,
    ]);
    expect(grid?.columns.map(({ label }) => label)).toEqual(['run', 'screen']);
    expect(
      grid?.rows.map(({ label, snaps, known, cells }) => [label, snaps, known, ...cells.map(({ count }) => count)]),
    ).toEqual([
      ['all snaps', 8, 7, 5, 2],
      ['1st and 10', 4, 4, 4, 0],
      ['3rd and 7-10', 4, 3, 1, 2],
    ]);
    expect(grid?.rows[2]?.cells[0]?.plays).toEqual([{ chartId: 'chart-0', playNumber: 7 }]);
  });

  it('adds up what does not fit into seven columns', () => {
    const coverages = ['0', '1', '2', '3', '4', '2-man', '3-sky', '4-match'].map((name) => `coverage.cover-${name}`);
    const grid = gridOf(
      'defense',
      coverages.flatMap((coverage, place) => times(9 - place, { ...first, coverage })),
    );
    expect(grid?.columns).toHaveLength(7);
    expect(grid?.columns.at(-1)?.label).toBe('any other');
    for (const { known, cells } of grid?.rows ?? []) {
      expect(cells.reduce((sum, { count }) => sum + count, 0)).toBe(known);
    }
  });

  it('is none where no call is known', () => {
    expect(gridOf('offense', [])).toBeNull();
    expect(gridOf('offense', times(3, first))).toBeNull();
  });
});
