import { assertCount } from '../../statistics/guards.js';
import { testedTables, type CallTable } from './call-tables.js';
import { describeCall } from './describe-call.js';
import { testCall } from './search.js';
import { snapsToSettle } from './snaps-to-settle.js';
import type { CueAndCall, TellsResult } from './tell-shape.js';

/** The situation in which the cue is seen most, said aloud: what the lead may really be about. Counts of plays. */
export interface ParentSituation {
  readonly name: string;
  readonly plays: number;
  readonly count: number;
  readonly playsWithout: number;
  readonly countWithout: number;
}

/** Something that may be a tell and was not found to be one. */
export interface Lead extends CueAndCall {
  readonly status: 'unproven';
  /** 1 for the first. */
  readonly rank: number;
  readonly parentSituation: ParentSituation;
  /**
   * More snaps with the cue until it would be found with a chance of 80 %, were the effect what it looks like; on the
   * low side, since leads are listed for looking large.
   */
  readonly snapsToSettle: number | null;
}

const POWER = 0.8;

/**
 * The second tier: cue values that come nearest to being tells, ranked, one line each, labelled unproven. At usual
 * samples there is no tell and these say where to look.
 *
 * Ranked by the p-value of the family, which corrects the best call's for how many calls were looked at: a cue with twenty
 * concepts has no more chances than one with run and pass. * Left out is a cue value that was said
 * already, or one that shares a part with one above it, with the same call: it would only say it again.
 *
 * @param result - of `tells`
 * @param most   - leads at most, integer ≥ 0
 * @throws DomainError `stats.invalid_count`
 * @see Simes (1986), Biometrika 73, 751–754
 */
export function leads(result: TellsResult, most: number): Lead[] {
  assertCount('most', most, { min: 0 });
  const { facts, strata, families } = result.search;
  const proven = new Set(result.tells.map(({ cueValue }) => cueValue));
  const candidates = families.filter(({ cueValue }) => !proven.has(cueValue)).toSorted((a, b) => a.pValue - b.pValue);

  const described = { facts, places: strata.order.toSorted(), confidence: result.confidence };
  const hurdle = (result.level * Math.max(1, result.tested.selectedFamilies)) / Math.max(1, result.tested.families);
  const listed: Lead[] = [];
  for (const family of candidates) {
    if (listed.length >= most) break;
    const best = family.pValues.indexOf(Math.min(...family.pValues));
    const test = testCall(family, family.columns[best] ?? 0, strata);
    const call = describeCall(family, test, described);
    if (call === null || [...result.tells, ...listed].some((other) => saysAgain(call, other))) continue;
    listed.push({
      ...call,
      status: 'unproven',
      rank: listed.length + 1,
      parentSituation: parentSituation(test.tables, facts.situationNames),
      snapsToSettle: snapsToSettle(testedTables(test.tables), { level: hurdle / family.columns.length, power: POWER }),
    });
  }
  return listed;
}

/** The same cue value again, or one that shares a part with what was said of the same call. */
function saysAgain(call: CueAndCall, said: CueAndCall): boolean {
  if (call.cueValue === said.cueValue) return true;
  const shared = call.cueValue.parts.some((part) => said.cueValue.parts.includes(part));
  return shared && call.dimension === said.dimension && call.call === said.call && call.direction === said.direction;
}

function parentSituation(tables: readonly CallTable[], names: readonly string[]): ParentSituation {
  const sums = names.map((name) => ({ name, plays: 0, count: 0, playsWithout: 0, countWithout: 0 }));
  for (const { situation, table } of tables) {
    const sum = sums[situation];
    if (sum === undefined) continue;
    sum.count += table[0][0];
    sum.plays += table[0][0] + table[0][1];
    sum.countWithout += table[1][0];
    sum.playsWithout += table[1][0] + table[1][1];
  }
  return sums.reduce((most, sum) => (sum.plays > most.plays ? sum : most));
}
