import { resultsOfPlays } from '../tendencies/decisions/results-of-plays.js';
import { Evidence } from '../tendencies/evidence.js';
import type { Results } from '../tendencies/results-shape.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** Results of some plays by how strong one unit of one side was in those games. */
export interface RosterSplit {
  readonly side: 'offense' | 'defense';
  readonly unit: string;
  readonly strength: 'weak' | 'strong';
  readonly results: Results;
  readonly evidence: Evidence;
}

/** Grades of one entrant's units, from 0 for the least grade of the event's scale to 1 for the best. */
export type UnitStrengths = ReadonlyMap<string, number>;

/**
 * Results split by the strength of units, where the event graded them: the lower half of a scale is weak, the upper one
 * strong, and its very middle neither. Units that occur on one side of the middle only are left out, since there is
 * nothing to hold them against.
 *
 * @param places    - plays in the batch
 * @param gradesOf  - strengths of the units of one side in the game of a play; null where nobody graded them
 * @throws DomainError `stats.invalid_probability`
 */
export function rosterFit(
  facts: TendencyPlays,
  places: Int32Array,
  gradesOf: (play: number, side: 'offense' | 'defense') => UnitStrengths | null,
  confidence: number,
): RosterSplit[] {
  const groups = new Map<string, { side: RosterSplit['side']; unit: string; weak: number[]; strong: number[] }>();
  for (const play of places) {
    for (const side of ['offense', 'defense'] as const) {
      for (const [unit, grade] of gradesOf(play, side) ?? []) {
        const key = `${side} ${unit}`;
        const group = groups.get(key) ?? { side, unit, weak: [], strong: [] };
        groups.set(key, group);
        if (grade < 0.5) group.weak.push(play);
        else if (grade > 0.5) group.strong.push(play);
      }
    }
  }
  return [...groups.values()]
    .filter(({ weak, strong }) => weak.length > 0 && strong.length > 0)
    .flatMap(({ side, unit, ...of }) =>
      (['weak', 'strong'] as const).map((strength): RosterSplit => {
        const own = Int32Array.from(of[strength]);
        return {
          side,
          unit,
          strength,
          results: resultsOfPlays(facts, own, null, confidence),
          evidence: new Evidence(facts.plays, own, () => true),
        };
      }),
    );
}
