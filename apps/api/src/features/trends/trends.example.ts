import { EXAMPLE_IDS, EXAMPLE_PLAY } from '../../common/examples.js';
import type { TrendsResponse } from './trends.dto.js';

const EVENTS = [
  { name: 'Spring Cup', startsOn: '2026-02-06', games: 20, count: 10, known: 1302, users: 3, successes: 7, trials: 10 },
  {
    name: 'Summer Open',
    startsOn: '2026-04-17',
    games: 24,
    count: 65,
    known: 1186,
    users: 13,
    successes: 28,
    trials: 65,
  },
];

export const TRENDS_EXAMPLE: TrendsResponse = {
  side: 'offense',
  confidence: 0.9,
  events: EVENTS.map(({ name, startsOn, games }) => ({ eventIds: [EXAMPLE_IDS.event], name, startsOn, games })),
  tested: 84,
  restsOn: '84 calls put to the test; of those found, 10 % may be chance',
  trends: [
    {
      dimension: 'concept',
      parts: [{ dimension: 'concept', label: 'counter read', termId: 70 }],
      verdict: 'rising',
      words: 'counter read (concept) is rising: 10 of 1302, 65 of 1186; used by 3, 13 players; p below 0.001',
      results: 'success 7 of 10, 28 of 65',
      test: { z: 3.07, pValue: 0.0005, adjusted: 0.04, asIndependentPlays: 6.96 },
      change: { share: 0.0478, interval: { lower: 0.021, upper: 0.0746 } },
      users: 14,
      firstSeen: { handle: 'Mossback', playedOn: '2026-02-06', play: EXAMPLE_PLAY },
      byEvent: EVENTS.map(({ count, known, users, successes, trials }) => ({
        count,
        known,
        share: { share: 0.0548, interval: { lower: 0.0449, upper: 0.0668 } },
        users,
        players: 22,
        successes,
        trials,
        success: { share: 0.4308, interval: { lower: 0.3352, upper: 0.5319 } },
        expectedPointsAdded: { plays: 60, mean: 0.08, interval: { lower: -0.11, upper: 0.27 } },
        plays: [EXAMPLE_PLAY],
      })),
    },
  ],
};
