import { starterVocabulary } from '../../charting/vocabulary.js';
import type { PlaySketch } from '../../football/testing/chart-of.js';
import { leads } from './leads.js';
import type { TellsResult } from './tell-shape.js';
import { tells } from './tells.js';
import { gamesOf, SECOND_AND_LONG } from './testing/games-of.js';

const THIRD_AND_LONG = { down: 3, distance: 9, yardsToGoal: 60 };

/** A bunch that is a little more often a run, on second and long three times out of four. */
function aFewGames(): TellsResult {
  const games = Array.from({ length: 3 }, () =>
    Array.from({ length: 40 }, (_, place): PlaySketch => ({
      ...(place % 4 === 3 ? THIRD_AND_LONG : SECOND_AND_LONG),
      formation: place < 12 ? 'bunch' : 'pro',
      called: place < 8 || place % 5 === 0 || place % 7 === 0 ? 'run' : 'pass',
    })),
  );
  return tells({
    plays: gamesOf(games),
    side: 'offense',
    vocabulary: starterVocabulary(),
    confidence: 0.9,
    level: 1e-6,
  });
}

it('says the situation in which the cue is seen most, with its counts', () => {
  const [lead] = leads(aFewGames(), 3);
  expect(lead?.parentSituation).toEqual({
    name: '2nd and 7-10',
    plays: 27,
    count: 21,
    playsWithout: 63,
    countWithout: 18,
  });
});

it('is labelled unproven, ranked from 1, with clips and the snaps that would settle it', () => {
  const [lead] = leads(aFewGames(), 3);
  expect(lead).toMatchObject({ status: 'unproven', rank: 1, plays: 36, count: lead?.evidence.places().length });
  expect(lead?.snapsToSettle).toBeGreaterThan(0);
});

it('lists at most as many as asked for', () => {
  expect(leads(aFewGames(), 0)).toEqual([]);
  expect(() => leads(aFewGames(), -1)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
});

it('does not list what was found', () => {
  const result = aFewGames();
  const found = tells({
    plays: result.search.facts,
    side: 'offense',
    vocabulary: starterVocabulary(),
    confidence: 0.9,
    level: 0.1,
  });
  expect(found.tells).toHaveLength(1);
  expect(leads(found, 3)).toEqual([]);
});

it('ends where a cue makes no difference and rounding puts both calls below what is expected', () => {
  // Run and pass of two games: 6.4 and 1.6 runs are expected from a bunch, and there were 6 and 2.
  const counts = [
    { bunch: [6, 2], pro: [6, 1] },
    { bunch: [2, 0], pro: [6, 2] },
  ];
  const plays = counts.map((game) =>
    (['bunch', 'pro'] as const).flatMap((formation) =>
      (['run', 'pass'] as const).flatMap((called, at) =>
        Array.from({ length: game[formation][at] ?? 0 }, (): PlaySketch => ({ ...SECOND_AND_LONG, formation, called })),
      ),
    ),
  );
  const result = tells({
    plays: gamesOf(plays),
    ...{ side: 'offense', vocabulary: starterVocabulary(), confidence: 0.9, level: 0.1 },
  });
  expect(leads(result, 3)[0]?.pValue).toBeGreaterThan(0.9);
});
