import { fittingCalls } from './fitting-calls.js';
import type { CallOption } from './options.js';
import type { SituationCounts } from './situation-counts.js';

const call = (label: string, level: number, byItsLike = false): CallOption => ({
  ...{ key: label, label, menu: null, byItsLike },
  levels: [{ level, weight: 1 }],
});
const [duo, mesh, verticals] = [call('duo', 0), call('mesh', 1), call('four verticals', 2)];
const wall = call('six man line', 0, true);

/** What the field called in the one situation, by level. */
function fitting(installed: readonly CallOption[], uses: readonly number[]): string[] {
  const counts = { ofEverybody: () => Int32Array.from(uses) } as unknown as SituationCounts;
  return fittingCalls(installed, counts, 'goal to go').map(({ label }) => label);
}

describe('calls that fit a situation', () => {
  it('are those that somebody calls there, and more than once in a while', () => {
    expect(fitting([duo, mesh, verticals], [40, 3, 2])).toEqual(['duo', 'mesh']);
    expect(fitting([duo, mesh, verticals], [900, 30, 5])).toEqual(['duo', 'mesh']);
  });

  it('are known only by their like where there are no others to mix, and then the like is called there', () => {
    expect(fitting([wall, duo, mesh], [40, 30, 0])).toEqual(['duo', 'mesh']);
    expect(fitting([wall, duo, mesh], [40, 0, 0])).toEqual(['six man line', 'duo']);
  });

  it('are all where there is nothing to mix', () => {
    expect(fitting([wall, duo, mesh], [0, 40, 0])).toEqual(['six man line', 'duo', 'mesh']);
    expect(fitting([], [40, 0, 0])).toEqual([]);
  });
});
