import type { HabitClaim, HabitTopicName } from '../habits/habits-shape.js';
import type { RoundReport } from '../round-report-shape.js';
import { assembleRoundReport } from '../round-report.js';
import { alikeReport, type AlikeSettings } from './alike-league.js';
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
  /** By topic of any kind, in how many reports it has anything established; and in how many any topic has. */
  readonly established: ReadonlyMap<HabitTopicName, number>;
  readonly withAny: number;
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
  let withAny = 0;
  for (let league = 0; league < leagues; league += 1) {
    const planted = plantedIn(league);
    const claims = establishedClaims(firstSeed + league, planted);
    if (claims.length > 0) withAny += 1;
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
  return { reports: leagues, byTopic, established, withAny };
}

/** On players who are all alike, so that all that is established is chance. */
export interface AlikeFigures {
  readonly reports: number;
  /** By `side topic`, `stands out` among the topics, in how many reports it has anything established. */
  readonly established: ReadonlyMap<string, number>;
  readonly withAny: number;
  /** Lines in all reports together. */
  readonly lines: number;
}

export function alikeFigures(reports: number, firstSeed: number, settings: Omit<AlikeSettings, 'seed'>): AlikeFigures {
  const established = new Map<string, number>();
  let [withAny, lines] = [0, 0];
  for (let at = 0; at < reports; at += 1) {
    const report = alikeReport({ ...settings, seed: firstSeed + at });
    const shares = [report.offense, report.defense].flatMap(({ side, standsOut }) =>
      standsOut.filter((one) => one.established).map(() => `${side} stands out`),
    );
    const claims = [...shares, ...claimsOf(report).map(({ side, topic }) => `${side} ${topic}`)];
    lines += claims.length;
    const found = new Set(claims);
    if (found.size > 0) withAny += 1;
    for (const topic of found) established.set(topic, (established.get(topic) ?? 0) + 1);
  }
  return { reports, established, withAny, lines };
}

function establishedClaims(seed: number, planted: PlantedHabits): HabitClaim[] {
  return claimsOf(assembleRoundReport(plantedReportInput(seed, planted)));
}

function claimsOf({ habits }: RoundReport): HabitClaim[] {
  const topics = [...(habits?.givesAway ?? []), ...(habits?.sequences ?? []), ...(habits?.changed ?? [])];
  return topics.flatMap(({ claims }) => claims.filter(({ status }) => status === 'established'));
}
