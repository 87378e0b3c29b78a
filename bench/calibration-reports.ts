import {
  JUDGED_TOPICS,
  NOTHING_PLANTED,
  PLANTED_SIZES,
  reportFigures,
} from '#domain/reports/testing/report-figures.js';
import { clopperPearsonInterval } from '#domain/statistics/clopper-pearson-interval.js';

const REPORTS = { nothing: 600, planted: 100 };
const FALSE_BOUND = 0.12;
const RECOVERED = 0.8;

/**
 * Whole reports, assembled as the service does, on leagues with known truth: 12 games of 60 snaps, a plan a game. Prints
 * how often a topic calls something established where nothing is planted, and how often it names what is where all three
 * habits are planted at once. The seeds are fixed, and shared with no test.
 *
 * @returns whether every stated target was met
 */
export function calibrateReports(): boolean {
  console.log(`Whole reports on 12 games of 60 snaps: ${REPORTS.nothing} with nothing planted`);
  const { established } = reportFigures(REPORTS.nothing, 4_000_000, () => NOTHING_PLANTED);
  let met = true;
  for (const topic of new Set([...JUDGED_TOPICS, ...established.keys()])) {
    const wrong = established.get(topic) ?? 0;
    const { upper } = clopperPearsonInterval(wrong, REPORTS.nothing, 0.9);
    met &&= upper <= FALSE_BOUND;
    console.log(
      `${topic}: anything established in ${wrong} of ${REPORTS.nothing} (${percent(wrong / REPORTS.nothing)}, upper 95 % bound ${percent(upper)}, target at most ${percent(FALSE_BOUND)}: ${upper <= FALSE_BOUND ? 'met' : 'missed'})`,
    );
  }
  const { byTopic } = reportFigures(REPORTS.planted, 5_000_000, () => PLANTED_SIZES);
  for (const topic of JUDGED_TOPICS) {
    const { planted, found, wrong } = byTopic[topic];
    met &&= found / planted >= RECOVERED;
    console.log(
      `${topic}, all three habits planted: named in ${found} of ${planted} (target ${percent(RECOVERED)}); something else in ${wrong}`,
    );
  }
  return met;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
