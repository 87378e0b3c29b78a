import type { HabitTopicName } from '../habits/habits-shape.js';
import { assembleRoundReport } from '../round-report.js';
import { PLANTED, plantedReportInput, type PlantedHabits } from './report-league.js';

// Test support: what whole reports on leagues of known habits call established, for the tests and the bench.

interface Judged {
  readonly habit: keyof PlantedHabits;
  readonly isPlanted: (id: string) => boolean;
  /** Says something of the planted cue, move or mix, and so is no false find where that is planted. */
  readonly follows: (id: string) => boolean;
}

export const JUDGED = {
  tells: {
    habit: 'tell',
    isPlanted: (id) => id.includes(`/motion/term:${PLANTED.motion}/called/run`),
    follows: (id) => /[/+]motion[/+]/.test(id),
  },
  adjustments: {
    habit: 'answer',
    isPlanted: (id) => id.endsWith(`/term:${PLANTED.shown}/term:${PLANTED.answer}`),
    follows: (id) => id.includes(`/term:${PLANTED.shown}/`),
  },
  drift: {
    habit: 'drift',
    isPlanted: (id) => id.endsWith(`/formation/term:${PLANTED.formation}`),
    follows: (id) => id.includes('/formation/'),
  },
} as const satisfies Partial<Record<HabitTopicName, Judged>>;

export type JudgedTopic = keyof typeof JUDGED;

export const JUDGED_TOPICS = Object.keys(JUDGED) as readonly JudgedTopic[];

export const PLANTED_SIZES: PlantedHabits = { tell: 0.4, answer: 0.4, drift: 0.5 };
export const NOTHING_PLANTED: PlantedHabits = { tell: 0, answer: 0, drift: 0 };

/** In how many reports of how many. */
export interface ReportFigures {
  /** Those with the habit planted, and those of them that name it. */
  readonly planted: number;
  readonly found: number;
  /** Those with something established in the topic that was not planted. */
  readonly wrong: number;
}

export interface FiguresOfReports {
  readonly reports: number;
  readonly byTopic: Readonly<Record<JudgedTopic, ReportFigures>>;
  /** By topic of any kind, in how many reports it has anything established. */
  readonly established: ReadonlyMap<HabitTopicName, number>;
}

/** @param plantedIn - what a league has, by its number from 0 */
export function reportFigures(
  leagues: number,
  firstSeed: number,
  plantedIn: (league: number) => PlantedHabits,
): FiguresOfReports {
  const byTopic = Object.fromEntries(
    JUDGED_TOPICS.map((topic) => [topic, { planted: 0, found: 0, wrong: 0 }]),
  ) as Record<JudgedTopic, { planted: number; found: number; wrong: number }>;
  const established = new Map<HabitTopicName, number>();
  for (let league = 0; league < leagues; league += 1) {
    const planted = plantedIn(league);
    const claims = establishedClaims(firstSeed + league, planted);
    for (const topic of new Set(claims.map((claim) => claim.topic))) {
      established.set(topic, (established.get(topic) ?? 0) + 1);
    }
    for (const topic of JUDGED_TOPICS) {
      const { habit, isPlanted, follows }: Judged = JUDGED[topic];
      const ids = claims.filter((claim) => claim.topic === topic).map(({ id }) => id);
      const isIn = planted[habit] > 0;
      const figures = byTopic[topic];
      if (isIn) figures.planted += 1;
      if (isIn && ids.some(isPlanted)) figures.found += 1;
      if (ids.some((id) => !isIn || !follows(id))) figures.wrong += 1;
    }
  }
  return { reports: leagues, byTopic, established };
}

function establishedClaims(seed: number, planted: PlantedHabits): { id: string; topic: HabitTopicName }[] {
  const { habits } = assembleRoundReport(plantedReportInput(seed, planted));
  const topics = [...(habits?.givesAway ?? []), ...(habits?.sequences ?? []), ...(habits?.changed ?? [])];
  return topics.flatMap(({ topic, claims }) =>
    claims.filter(({ status }) => status === 'established').map(({ id }) => ({ id, topic })),
  );
}
