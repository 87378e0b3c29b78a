import { jsonLines } from './test-api.js';

type Cells = Readonly<Record<string, unknown>>;

/** Two players, an event and one game between them. */
export const TWO_PLAYERS: readonly Cells[] = [
  { record: 'player', handle: 'Brass Heron', aliases: ['heron'] },
  { record: 'player', handle: 'Mossback' },
  { record: 'event', reference: 'pond-cup', name: 'Pond Cup', status: 'running', rulesVersion: '1' },
  { record: 'entrant', event: 'pond-cup', player: 'Brass Heron', seed: 1 },
  { record: 'entrant', event: 'pond-cup', player: 'Mossback', seed: 2 },
  { record: 'match', event: 'pond-cup', round: 1, position: 1, home: 'Brass Heron', away: 'Mossback', status: 'ready' },
];

export function aGameRecord(cells: Cells = {}): Cells {
  return {
    record: 'game',
    reference: 'pond-1',
    event: 'pond-cup',
    home: 'Brass Heron',
    away: 'Mossback',
    importance: 'group',
    playedAt: '2026-03-01T12:00:00Z',
    videos: [{ kind: 'neutral', url: 'https://video.example/pond-1', offsetSeconds: 5 }],
    ...cells,
  };
}

/** A first-down run for three yards that follows from nothing. */
export function aPlayRecord(cells: Cells = {}): Cells {
  return { record: 'play', game: 'pond-1', order: 1, offense: 'Mossback', playType: 'scrimmage', ...cells };
}

export const SMALL_LEAGUE: string = jsonLines([
  ...TWO_PLAYERS,
  aGameRecord(),
  aPlayRecord({
    order: 1,
    down: 1,
    distance: 10,
    yardsToGoal: 75,
    formation: 'trips',
    callFamily: 'run',
    yardsGained: 6,
    snapResult: 'rushed',
  }),
  aPlayRecord({
    order: 2,
    down: 2,
    distance: 4,
    yardsToGoal: 69,
    formation: '2x2',
    callFamily: 'pass',
    yardsGained: 8,
    snapResult: 'complete',
    ledTo: ['first down gained'],
  }),
  aPlayRecord({
    order: 3,
    down: 1,
    distance: 10,
    yardsToGoal: 61,
    callFamily: 'play action',
    yardsGained: 0,
    snapResult: 'incomplete',
  }),
  aPlayRecord({
    order: 4,
    down: 2,
    distance: 10,
    yardsToGoal: 61,
    callFamily: 'run',
    yardsGained: 2,
    snapResult: 'rushed',
  }),
]);
