import { calledRunOrPass } from '../charting/vocabulary.js';
import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import type { AnswerModel } from './answer-model.js';
import type { Estimate } from './answers-to.js';
import { intervalAround } from './interval-around.js';
import { playsOfPlayer } from './plays-by-player.js';
import { pooledGroups } from './pooled-means.js';

/** A concept of one player's with what it gave, drawn towards the player's others. */
export interface CallStanding {
  readonly conceptId: number;
  readonly label: string;
  readonly plays: number;
  /** Expected points added a play beside the mean of the situation. */
  readonly points: Estimate;
}

/** Fewer plays are no call of the player's to be answered. Common practice, no source. */
const FEWEST_PLAYS = 4;

/**
 * A player's own concepts, the best first. Means are drawn towards each other, so that four lucky plays do not lead.
 *
 * @param called - only runs or only passes
 * @throws DomainError `stats.invalid_probability`
 */
export function bestCalls(
  model: AnswerModel,
  player: number,
  called: 'run' | 'pass',
  confidence: number,
): CallStanding[] {
  const { points, coded, calls, vocabulary } = model;
  if (points === null || player < 0) return [];
  const values = new Map<number, number[]>();
  for (const play of playsOfPlayer(model, 'offense', player)) {
    const value = model.pointsAdded[play] ?? UNKNOWN_POINTS;
    if (value === UNKNOWN_POINTS) continue;
    const level = coded.call[play] ?? -1;
    const own = values.get(level) ?? [];
    values.set(level, own);
    own.push(value - points.expectedOf(play));
  }
  const asked = [...values].flatMap(([place, own]) => {
    const level = calls.levels[place];
    if (level?.conceptId == null || own.length < FEWEST_PLAYS) return [];
    if (calledRunOrPass(vocabulary, level.familyId, level.conceptId) !== called) return [];
    return [{ conceptId: level.conceptId, label: level.label, own }];
  });
  const pooled = pooledGroups(
    asked.map(({ own }) => own),
    points.variances.residual,
  );
  return asked
    .map(({ conceptId, label, own }, at): CallStanding => {
      const { estimate, standardDeviation } = pooled[at] ?? { estimate: 0, standardDeviation: 0 };
      return {
        conceptId,
        label,
        plays: own.length,
        points: { mean: estimate, interval: intervalAround(estimate, standardDeviation, confidence) },
      };
    })
    .sort((one, other) => other.points.mean - one.points.mean || one.conceptId - other.conceptId);
}
