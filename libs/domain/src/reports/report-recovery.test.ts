import { clopperPearsonInterval } from '../statistics/clopper-pearson-interval.js';
import type { HabitTopicName } from './habits/habits-shape.js';
import { assembleRoundReport } from './round-report.js';
import { PLANTED, plantedReportInput, type PlantedHabits } from './testing/report-league.js';

// Whole reports, assembled as the service does, on fifty leagues. Each has two of the three habits planted, in turns, so
// that every topic has leagues in which its claims can only be false. The seeds are this test's own; figures are printed.

const LEAGUES = 50;
const FIRST_SEED = 300_000;
const SIZES: PlantedHabits = { tell: 0.4, answer: 0.4, drift: 0.5 };

interface Judged {
  readonly topic: HabitTopicName;
  readonly habit: keyof PlantedHabits;
  /** What the finder is stated to recover, in (0, 1): see docs/reference/calibration.md. */
  readonly stated: number;
  readonly isPlanted: (id: string) => boolean;
  /** Says something of the planted cue, move or mix, and so is no false find where that is planted. */
  readonly follows: (id: string) => boolean;
}

const JUDGED: readonly Judged[] = [
  {
    topic: 'tells',
    habit: 'tell',
    stated: 0.8,
    isPlanted: (id) => id.includes(`/motion/term:${PLANTED.motion}/called/run`),
    follows: (id) => /[/+]motion[/+]/.test(id),
  },
  {
    topic: 'adjustments',
    habit: 'answer',
    stated: 0.7,
    isPlanted: (id) => id.endsWith(`/term:${PLANTED.shown}/term:${PLANTED.answer}`),
    follows: (id) => id.includes(`/term:${PLANTED.shown}/`),
  },
  {
    topic: 'drift',
    habit: 'drift',
    stated: 0.7,
    isPlanted: (id) => id.endsWith(`/formation/term:${PLANTED.formation}`),
    follows: (id) => id.includes('/formation/'),
  },
];

const leagues = Array.from({ length: LEAGUES }, (_, league) => {
  const left = JUDGED[league % JUDGED.length]?.habit;
  const planted: PlantedHabits = left === undefined ? SIZES : { ...SIZES, [left]: 0 };
  const { habits } = assembleRoundReport(plantedReportInput(FIRST_SEED + league, planted));
  const topics = [...(habits?.givesAway ?? []), ...(habits?.sequences ?? []), ...(habits?.changed ?? [])];
  const established = topics.flatMap(({ claims }) => claims.filter(({ status }) => status === 'established'));
  return { planted, established };
});

describe.each(JUDGED)('the $topic of fifty reports', ({ topic, habit, stated, isPlanted, follows }) => {
  const claims = leagues.map(({ planted, established }) => ({
    isIn: planted[habit] > 0,
    ids: established.filter((claim) => claim.topic === topic).map(({ id }) => id),
  }));
  const where = claims.filter(({ isIn }) => isIn);
  const found = where.filter(({ ids }) => ids.some(isPlanted)).length;
  const wrong = claims.filter(({ isIn, ids }) => ids.some((id) => !isIn || !follows(id))).length;

  // So few leagues show a broken promise only where even the upper bound is below it.
  it('recover what was planted', () => {
    console.log(`${topic}: planted found in ${found} of ${where.length}, false in ${wrong} of ${LEAGUES}`);
    expect(clopperPearsonInterval(found, where.length, 0.9).upper).toBeGreaterThanOrEqual(stated);
  });

  // Likewise; the larger runs of each finder hold the upper bound to 12 %.
  it('claim nothing that was not planted', () => {
    expect(clopperPearsonInterval(wrong, LEAGUES, 0.9).lower).toBeLessThanOrEqual(0.12);
  });
});
