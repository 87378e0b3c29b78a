import { jersey, type Matchup, type Outcome } from './matchup.js';
import { between, chance, clamp } from './randomness.js';
import type { FieldValues, OffenseCall } from './snap.js';
import { isHeld, isSpreadingCall } from './spreading-call.js';
import { drawGamma } from '#domain/statistics/draw-gamma.js';

export function resolveRun(matchup: Matchup): Outcome {
  const { random, situation, call, skill, defense } = matchup;
  const mean = 4.5 + runEdge(matchup) + 0.5 * skill;
  const raw = chance(random, 0.05 - clamp(0.01 * (mean - 4), -0.05, 0.04))
    ? -between(random, 1, 4)
    : mean - 5.6 + 2.8 * drawGamma(random, 2);
  const breaks = mean > 3 && chance(random, 0.015) ? between(random, 8, 45) : 0;
  const compressed = call.concept === 'quarterback sneak' ? clamp(raw - 2, 0, 3) : raw + breaks;
  const yards = clamp(Math.round(compressed), -8, situation.yardsToGoal);
  const carriesOut = isOutside(call.concept) && chance(random, 0.3) && yards < situation.yardsToGoal;
  const fumbles = chance(random, 0.013);
  return {
    values: {
      snapResult: 'rushed',
      target: carrierOf(call),
      targetNumber: jersey(random, carrierOf(call)),
      ...pathOf(matchup, yards),
      ...(yards <= 1 && chance(random, 0.6)
        ? { blockDefeated: 'yes' }
        : chance(random, 0.5)
          ? { blockDefeated: 'no' }
          : {}),
      unblockedRusher: defense.boxCount >= 8 && yards <= 0 && chance(random, 0.5) ? 'yes' : 'no',
    },
    yards,
    ends:
      fumbles && chance(random, 0.5) && yards < situation.yardsToGoal
        ? 'fumble lost'
        : carriesOut
          ? 'out of bounds'
          : 'in bounds',
    turnoverAt: yards,
    returnYards: chance(random, 0.7) ? 0 : between(random, 1, 15),
    fumbleKept: fumbles,
  };
}

function isOutside(concept: string): boolean {
  return ['outside zone', 'toss', 'jet sweep', 'pin and pull', 'speed option', 'quarterback sweep'].includes(concept);
}

/** Yards that the defense's call takes from a run, or gives to it. */
function runEdge({ call, defense, look }: Matchup): number {
  if (isSpreadingCall(call)) return isHeld(defense) ? -2.6 : 2.3;
  const blockers = 5 + Number(look.personnel.slice(1, 2)) + (look.personnel.startsWith('2') ? 1 : 0) + 0.6;
  const edge = defense.pressurePath !== undefined && defense.pressurePath !== 'interior';
  let yards = clamp(0.6 * (blockers - defense.boxCount), -1.6, 1.6);
  if (isOutside(call.concept)) yards += edge ? -1.6 : 0.2;
  if (isOutside(call.concept) && defense.front === 'four down wide') yards -= 1;
  if (!isOutside(call.concept) && defense.front === 'double eagle') yards -= 1.3;
  if (!isOutside(call.concept) && defense.front === 'four down wide') yards += 0.8;
  if (call.concept === 'counter' && defense.front === 'three down odd') yards += 0.8;
  if (call.callFamily === 'draw') yards += defense.rushers >= 5 ? 2 : defense.pressure === 'three-man rush' ? 1 : 0;
  return yards;
}

function carrierOf({ callFamily, concept }: OffenseCall): string {
  if (callFamily === 'designed quarterback run') return 'quarterback';
  return concept === 'jet sweep' ? 'slot receiver' : 'running back';
}

/** Where the ball went, and what sent it elsewhere. */
function pathOf({ random, call, defense }: Matchup, yards: number): FieldValues {
  const { designedGap: gap, designedSide: side } = call;
  if (gap === undefined || side === undefined) return {};
  const edge = defense.pressurePath !== undefined && defense.pressurePath !== 'interior';
  if (chance(random, yards <= 1 ? 0.35 : 0.1)) {
    const cause =
      isOutside(call.concept) && (edge || chance(random, 0.6)) ? 'forced by a set edge' : 'forced by penetration';
    return {
      offDesign: cause,
      actualGap: isOutside(call.concept) ? 'B gap' : 'C gap',
      actualSide: chance(random, 0.75) ? side : side === 'left' ? 'right' : 'left',
    };
  }
  if (/zone|duo|read/.test(call.concept) && chance(random, 0.2)) {
    return { offDesign: 'read by design', actualGap: gap === 'A gap' ? 'B gap' : 'A gap', actualSide: side };
  }
  return { offDesign: 'no', actualGap: gap, actualSide: side };
}
