import { clopperPearsonInterval } from '../statistics/clopper-pearson-interval.js';
import { JUDGED, JUDGED_TOPICS, PLANTED_SIZES, reportFigures } from './testing/report-figures.js';

// Whole reports, assembled as the service does, on fifty leagues. Each has two of the three habits planted, in turns, so
// that every topic has leagues in which its claims can only be false. The seeds are this test's own; figures are printed.

const LEAGUES = 50;
/** What is asked for of each topic where its habit is planted. */
const RECOVERED = 0.8;
/** The most that the share of reports with something false in a topic may be. */
const FALSE_BOUND = 0.12;

const { byTopic } = reportFigures(LEAGUES, 300_000, (league) => {
  const left = JUDGED_TOPICS[league % JUDGED_TOPICS.length];
  return left === undefined ? PLANTED_SIZES : { ...PLANTED_SIZES, [JUDGED[left].habit]: 0 };
});

describe.each(JUDGED_TOPICS)('the %s of fifty reports', (topic) => {
  const { planted, found, wrong } = byTopic[topic];

  it('recover what was planted', () => {
    console.log(`${topic}: planted found in ${found} of ${planted}, false in ${wrong} of ${LEAGUES}`);
    expect(planted).toBeGreaterThan(LEAGUES / 2);
    expect(found / planted).toBeGreaterThanOrEqual(RECOVERED);
  });

  // So few leagues show a broken promise only where even the lower bound is above it; the bench runs hundreds.
  it('claim nothing that was not planted', () => {
    expect(clopperPearsonInterval(wrong, LEAGUES, 0.9).lower).toBeLessThanOrEqual(FALSE_BOUND);
  });
});
