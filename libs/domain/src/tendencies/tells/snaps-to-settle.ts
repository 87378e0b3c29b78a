import { normalQuantile } from '../../statistics/distributions.js';
import { assertOpenUnit } from '../../statistics/guards.js';
import { marginsOf, type TwoByTwo } from '../../statistics/two-by-two.js';

export interface SettlingTest {
  /** Two-sided level that the call would have to pass, in (0, 1). */
  readonly level: number;
  /** Chance of passing it if the effect is what was observed, in (0, 1). */
  readonly power: number;
}

/**
 * How many more snaps with the cue would settle a lead, if the call went on to go with it as observed and the plays fell
 * into situations and games as they did. The needed multiple of the present sample is ((z₁ σ₀ + z₂ σ₁) / Δ)², with Δ the
 * call's excess over what independence expects, σ₀ its standard deviation under independence (hypergeometric, group by
 * group), σ₁ that at the observed shares, z₁ and z₂ the normal quantiles of level / 2 and of the power.
 *
 * A lead comes up for looking large, so its observed effect is too large on average and this figure too small.
 *
 * @param tables - one a situation and game; first row with the cue, first column the call
 * @returns snaps, ≥ 1; null where the call does not go with the cue at all
 * @throws DomainError `stats.invalid_probability`
 * @see Lachin (1981), Control. Clin. Trials 2, 93–113, equation for two proportions, summed over strata
 */
export function snapsToSettle(tables: readonly TwoByTwo[], { level, power }: SettlingTest): number | null {
  assertOpenUnit('level', level);
  assertOpenUnit('power', power);
  const telling = tables.filter((table) => {
    const { firstRow, secondRow } = marginsOf(table);
    return firstRow > 0 && secondRow > 0;
  });
  const sumOf = (part: (table: TwoByTwo) => number): number => telling.reduce((sum, table) => sum + part(table), 0);

  const weight = sumOf((table) => {
    const { firstRow, secondRow, total } = marginsOf(table);
    return (firstRow * secondRow) / total;
  });
  const shareWith = sumOf((table) => (table[0][0] * marginsOf(table).secondRow) / marginsOf(table).total) / weight;
  const shareWithout = sumOf((table) => (table[1][0] * marginsOf(table).firstRow) / marginsOf(table).total) / weight;
  const excess = weight * (shareWith - shareWithout);
  const underIndependence = sumOf((table) => {
    const { firstRow, secondRow, firstColumn, secondColumn, total } = marginsOf(table);
    return ((firstRow * secondRow) / total) * ((firstColumn * secondColumn) / total / (total - 1));
  });
  const asObserved = sumOf((table) => {
    const { firstRow, secondRow, total } = marginsOf(table);
    const [ofCue, ofRest] = [shareWith * (1 - shareWith), shareWithout * (1 - shareWithout)];
    return firstRow * (secondRow / total) ** 2 * ofCue + secondRow * (firstRow / total) ** 2 * ofRest;
  });
  if (!(Math.abs(excess) > 0)) return null;

  const needed =
    -normalQuantile(level / 2) * Math.sqrt(underIndependence) + normalQuantile(power) * Math.sqrt(asObserved);
  const present = telling.reduce((sum, table) => sum + marginsOf(table).firstRow, 0);
  // Plays with the cue that stood alone in their group count as seen, and more of them will come.
  const seen = tables.reduce((sum, table) => sum + marginsOf(table).firstRow, 0);
  const multiple = present === 0 ? Number.POSITIVE_INFINITY : (needed / excess) ** 2;
  return Number.isFinite(multiple) ? Math.max(1, Math.ceil(seen * (multiple - 1))) : null;
}
