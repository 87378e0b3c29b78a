import { PLAY_FIELDS, type PlayFieldName } from '../../charting/play-fields.js';
import type { SnapFacts } from '../forecast-snaps.js';
import type { FeatureColumn } from './feature-column.js';
import { knownMeanings, knownNumbers } from './situation-features.js';

/**
 * Fields after the situation, but one: seconds of a video mean nothing by themselves, and how long the offense waits is
 * known only once the ball is snapped.
 */
const LOOK_FIELDS = PLAY_FIELDS.slice(PLAY_FIELDS.findIndex(({ name }) => name === 'tempo')).filter(
  ({ name }) => name !== 'lineUpSecond',
);

/**
 * What shows before the snap: every visible field after the situation. Of a list of adjustments, how many there were and
 * which came last.
 */
export function lookFeatures(snaps: SnapFacts, visible: ReadonlySet<PlayFieldName>): FeatureColumn[] {
  const { plays } = snaps;
  return LOOK_FIELDS.filter(({ name }) => plays.columns.has(name) && visible.has(name)).flatMap(
    (field): FeatureColumn | FeatureColumn[] => {
      const { name } = field;
      if (field.type === 'number')
        return { name, kind: 'number', values: knownNumbers(plays.number(field.name).values) };
      if (field.type !== 'terms') return { name, kind: 'category', values: knownMeanings(plays.code(field.name)) };
      const { starts, codes, meanings, known } = plays.list(field.name);
      const count = new Float64Array(plays.count).fill(Number.NaN);
      const last = new Float64Array(plays.count).fill(Number.NaN);
      for (let play = 0; play < plays.count; play += 1) {
        if (known[play] !== 1) continue;
        const end = starts[play + 1] ?? 0;
        count[play] = end - (starts[play] ?? 0);
        last[play] = (count[play] ?? 0) > 0 ? (meanings[codes[end - 1] ?? -1] ?? -1) : -1;
      }
      return [
        { name: `${name}: how many`, kind: 'number', values: count },
        { name: `${name}: the last`, kind: 'category', values: last },
      ];
    },
  );
}
