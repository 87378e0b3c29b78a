import type { CountingChart } from '../charts/charts.service.js';
import { guessesOfQuarter, quarterLength, secondsUntil } from './seconds-left.js';

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
    expect(quarterLength(games([10, 6, 5]), 'event')).toEqual({ seconds: 360, noted: true });
    expect(quarterLength(games([12, 6, 5, 15, 7]), 'event').seconds).toBe(420);
  });

  it('comes from the games of the event that note one', () => {
    expect(quarterLength([...games([5, null]), ...games([8, 8], 'another')], 'event').seconds).toBe(300);
  });

  it('is the usual one of all games where the event notes none, and then a guess but in the last quarter', () => {
    const length = quarterLength([...games([null]), ...games([8, 8, 5], 'another')], 'event');
    expect(length).toEqual({ seconds: 480, noted: false });
    expect(guessesOfQuarter(3, length)).toEqual(['how long a quarter is in this event']);
    expect(guessesOfQuarter(4, length)).toEqual([]);
    expect(guessesOfQuarter(3, { ...length, noted: true })).toEqual([]);
  });

  it('is 0 where no game notes one', () => {
    expect(quarterLength(games([null]), 'event')).toEqual({ seconds: 0, noted: false });
  });

  it('counts for each quarter that is still to come', () => {
    expect(secondsUntil(4, 3, 40, quarterLength(games([10, 6, 5]), 'event'))).toBe(400);
    expect(secondsUntil(4, 4, 40, quarterLength(games([10, 6, 5]), 'event'))).toBe(40);
  });
});
