import type { MenuCall } from '../../answers/options.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import { Evidence } from '../evidence.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { LeftArea } from './left-areas.js';
import { thrownInto } from './thrown-into.js';

/** A call of our own by which an area was hit, whoever threw it. */
export interface OwnCallInto {
  readonly call: MenuCall;
  /** Of its concept: throws whose zone and depth are known, those into the area, and of these the successes. */
  readonly known: number;
  readonly hits: number;
  readonly trials: number;
  readonly successes: number;
  /** The throws into the area. */
  readonly evidence: Evidence;
}

/**
 * Which of our installed calls hit an area that a defender leaves: by their concept, over everybody's throws, since one
 * opponent's film seldom shows more than a throw or two there. The one that surely hits it most comes first; calls that nobody
 * was seen to throw there are left out.
 *
 * @param facts - every play that the reader may see
 */
export function ownCallsInto(
  facts: TendencyPlays,
  vocabulary: Vocabulary,
  area: LeftArea,
  menu: readonly MenuCall[],
): OwnCallInto[] {
  const { codes, meanings } = facts.plays.code('concept');
  const into = thrownInto(facts, vocabulary, area);
  return menu
    .flatMap((call): OwnCallInto[] => {
      const { conceptId } = call;
      if (call.side !== 'offense' || conceptId === null) return [];
      const fits = meanings.map((meaning) => vocabulary.isWithin(meaning, conceptId));
      const places: number[] = [];
      let [known, trials, successes] = [0, 0, 0];
      for (let play = 0; play < codes.length; play += 1) {
        const code = codes[play] ?? -1;
        const hit = into[play] ?? -1;
        if (code < 0 || hit < 0 || fits[code] !== true) continue;
        known += 1;
        if (hit === 0) continue;
        places.push(play);
        const success = facts.success[play] ?? -1;
        if (success >= 0) trials += 1;
        if (success === 1) successes += 1;
      }
      if (places.length === 0) return [];
      const evidence = new Evidence(facts.plays, Int32Array.from(places), () => true);
      return [{ call, known, hits: places.length, trials, successes, evidence }];
    })
    .sort((one, other) => surely(other) - surely(one) || other.hits - one.hits);
}

/** One throw that went there says less than thirty. */
function surely({ hits, known }: OwnCallInto): number {
  return wilsonInterval(hits, known, SURE).lower;
}

const SURE = 0.9;
