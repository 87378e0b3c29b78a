import { starterVocabulary } from '../charting/vocabulary.js';
import { chartedFacts, type ChartedRow } from './charted-rows.js';
import { DIMENSION_NAMES, type DimensionName } from './dimension-names.js';
import { readDimension } from './dimensions.js';

/** The labels of one dimension, play by play; null where it is unknown. */
function labels(name: DimensionName, rows: readonly ChartedRow[]): (string | null)[] {
  const { codes, values } = readDimension(name, chartedFacts(rows), starterVocabulary());
  return Array.from(codes, (code) => values[code]?.label ?? null);
}

describe('dimensions', () => {
  it('read a term as it stands, and keep "none" apart from unknown', () => {
    expect(labels('motion', [{ motion: 'motion.none' }, { motion: 'motion.jet' }, {}])).toEqual(['none', 'jet', null]);
  });

  it('take run or pass from the call family where it was not charted', () => {
    const rows = [{ called: 'run' }, { callFamily: 'callFamily.screen' }, {}];
    expect(labels('called', rows)).toEqual(['run', 'pass', null]);
  });

  it.each([
    ['left', 'left', 'to strength'],
    ['right', 'left', 'away from strength'],
    ['left', 'balanced', 'to a side of a balanced set'],
    ['middle', undefined, 'up the middle'],
    ['left', undefined, null],
    [undefined, 'left', null],
  ])('say of a play designed to the %s with strength %s: %s', (designedSide, strength, direction) => {
    const row = { ...(designedSide && { designedSide }), ...(strength && { strength }) };
    expect(labels('direction', [row])).toEqual([direction]);
  });

  it('roll a coverage up to man, zone or match through its parents', () => {
    const coverages = ['coverage.cover-1-robber', 'coverage.cover-3-sky', 'coverage.box-on-bunch', 'coverage.zone'];
    const rows = coverages.map((coverage) => ({ coverage }));
    expect(labels('coverageFamily', [...rows, {}])).toEqual(['man', 'zone', 'match', 'zone', null]);
  });

  it('count rushers before they ask the pressure term, and leave a term without a number unknown', () => {
    const rows = [
      { rushers: 5, pressure: 'pressure.four-man-rush' },
      { rushers: 4 },
      { pressure: 'pressure.simulated-pressure' },
      { pressure: 'pressure.all-out-pressure' },
      { pressure: 'pressure.delayed-rush' },
      {},
    ];
    const [four, five] = ['four or fewer rush', 'five or more rush'];
    expect(labels('pressure', rows)).toEqual([five, four, four, five, null, null]);
  });

  it('class the box at seven', () => {
    expect(labels('boxCount', [{ boxCount: 6 }, { boxCount: 7 }, { boxCount: 8 }, {}])).toEqual([
      'six or fewer in the box',
      'seven in the box',
      'eight or more in the box',
      null,
    ]);
  });

  it('give a value the same key in every batch', () => {
    const key = (rows: readonly ChartedRow[]): string[] =>
      readDimension('front', chartedFacts(rows), starterVocabulary()).values.map((value) => value.key);
    const [over, odd] = [{ front: 'front.four-down-over' }, { front: 'front.three-down-odd' }];
    expect(key([over, odd])).toEqual(key([odd, over]).reverse());
  });

  it('are unknown on every play of a batch that does not carry the field', () => {
    const facts = chartedFacts([{ down: 1 }, { down: 2 }]);
    for (const name of [...DIMENSION_NAMES.offense, ...DIMENSION_NAMES.defense]) {
      expect([...readDimension(name, facts, starterVocabulary()).codes]).toEqual([-1, -1]);
    }
  });
});
