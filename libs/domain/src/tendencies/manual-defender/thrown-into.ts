import type { Vocabulary } from '../../charting/vocabulary.js';
import type { Answers } from '../decisions/counted-share.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { LeftArea } from './left-areas.js';

/** For plays that count and whose throw is known by zone and depth: 1 into the area, 0 elsewhere; -1 for all others. */
export function thrownInto({ plays, counts }: TendencyPlays, vocabulary: Vocabulary, area: LeftArea): Answers {
  const zones = plays.code('targetZone');
  const depths = plays.code('targetDepth');
  const isIn = (kind: string, names: readonly string[]): ((id: number) => boolean) => {
    const ids = new Set(names.map((name) => vocabulary.idOfCode(`${kind}.${name}`)));
    return (id) => ids.has(vocabulary.canonicalId(id) ?? -1);
  };
  const inZone = zones.meanings.map(isIn('targetZone', area.zones));
  const atDepth = depths.meanings.map(area.depths.length === 0 ? () => true : isIn('targetDepth', area.depths));
  const into = new Int8Array(plays.count).fill(-1);
  for (let play = 0; play < into.length; play += 1) {
    const [zone, depth] = [zones.codes[play] ?? -1, depths.codes[play] ?? -1];
    if (counts[play] !== 1 || zone < 0 || depth < 0) continue;
    into[play] = inZone[zone] === true && atDepth[depth] === true ? 1 : 0;
  }
  return into;
}
