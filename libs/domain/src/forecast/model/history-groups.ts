import type { HistoryGroup } from '../features/history-features.js';
import type { SnapFacts } from '../forecast-snaps.js';
import { joinKeys } from '../nested/context-keys.js';
import type { ContextKeys } from '../nested/context-orders.js';

/**
 * Whose habits are followed, and how fast they are forgotten. Half-lives in games and priors in plays are round numbers
 * that did well on the simulated leagues of `testing/situational-league`; no source.
 *
 * @param classes - with more than two only the groups that carry most, since each gives a column for every class
 */
export function historyGroups(snaps: SnapFacts, keys: ContextKeys, classes: number): readonly HistoryGroup[] {
  const { player, other, clock, downAndDistance } = keys;
  const downs = Int32Array.from(snaps.plays.number('down').values, (down) => (down < 1 ? -1 : Math.min(down, 3)));
  const always = { span: 'career', halfLife: Number.POSITIVE_INFINITY } as const;
  const today = { span: 'game', halfLife: Number.POSITIVE_INFINITY } as const;
  const main: HistoryGroup[] = [
    { name: 'player', keys: player, ...always, halfLife: 10, prior: 100 },
    { name: 'player by situation', keys: joinKeys(player, downAndDistance), ...always, halfLife: 16, prior: 40 },
    { name: 'other player', keys: other, ...always, halfLife: 16, prior: 150 },
    { name: 'player today', keys: player, ...today, prior: 30 },
  ];
  if (classes > 2) return main;
  return [
    ...main,
    { name: 'player at all times', keys: player, ...always, prior: 100 },
    { name: 'player lately', keys: player, ...always, halfLife: 2, prior: 60 },
    { name: 'player by down', keys: joinKeys(player, downs), ...always, halfLife: 16, prior: 80 },
    { name: 'player by clock', keys: joinKeys(player, clock), ...always, halfLife: 16, prior: 40 },
    { name: 'everybody', keys: new Int32Array(player.length), ...always, halfLife: 30, prior: 200 },
    { name: 'player today by down', keys: joinKeys(player, downs), ...today, prior: 20 },
  ];
}
