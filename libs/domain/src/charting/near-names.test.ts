import { nearNames } from './near-names.js';

const NAMES = [
  ['down', 'down'],
  ['distance', 'distance'],
  ['drive', 'drive'],
  ['dst', 'distance'],
] as const;

describe('near names', () => {
  it.each<[string, readonly string[]]>([
    ['distence', ['distance']],
    ['dsitance', ['distance']],
    ['istance', ['distance']],
    ['dwn', ['down']],
    ['dist', ['distance']],
    ['drown', ['down']],
    ['weather', []],
    ['zz', []],
    ['', []],
  ])('of %j are %j', (typed, names) => {
    expect(nearNames(NAMES, typed)).toEqual(names);
  });

  it('stand nearest first, each once, three at most', () => {
    const plenty = ['tide', 'tides', 'wide tide', 'tiles', 'tidiest'].map((word) => [word, word] as const);
    expect(nearNames([...plenty, ['tidess', 'tides']], 'tidest')).toEqual(['tides', 'tidiest', 'tide']);
  });
});
