import type { CountingChart } from '../charts/charts.service.js';
import { quarterSeconds, secondsOfGame } from './seconds-left.js';

function games(quarters: readonly (number | null)[], eventId = 'event'): CountingChart[] {
  return quarters.map((quarterMinutes, place) => ({
    clanId: 'clan',
    chartId: `chart-${place}`,
    revision: 1,
    gameId: `game-${place}`,
    homePlayerId: 'home',
    awayPlayerId: 'away',
    playedOn: null,
    importance: 'group',
    rulesVersion: null,
    eventId,
    quarterMinutes,
    allSnaps: true,
  }));
}

describe('the usual length of a quarter', () => {
  it('is the one in the middle by length, however many digits it has', () => {
    expect(quarterSeconds(games([10, 6, 5]), 'event')).toBe(360);
    expect(quarterSeconds(games([12, 6, 5, 15, 7]), 'event')).toBe(420);
  });

  it('comes from the games of the event that note one, and is 0 without any', () => {
    expect(quarterSeconds([...games([5, null]), ...games([8, 8], 'another')], 'event')).toBe(300);
    expect(quarterSeconds(games([null]), 'event')).toBe(0);
  });

  it('counts for each quarter that is still to come', () => {
    expect(secondsOfGame(games([10, 6, 5]), { eventId: 'event', quarter: 3, clockSeconds: 40 })).toBe(400);
  });
});
