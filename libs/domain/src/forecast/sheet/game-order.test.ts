import { gamesInTime, type GameTime } from './game-order.js';

function games(...given: readonly Partial<GameTime>[]): GameTime[] {
  return given.map((game, at) => ({ name: `game ${at}`, date: '', season: '', week: '', ...game }));
}

const dated = (...dates: readonly string[]): GameTime[] => games(...dates.map((date) => ({ date })));

describe('the order of the games of a sheet', () => {
  it.each([
    { as: 'year first', dates: ['2025-09-14', '2025-09-07', '2024-12-28'] },
    { as: 'year first without dashes', dates: ['20250914', '20250907', '20241228'] },
    { as: 'with a time of day', dates: ['2025-09-14T20:00:00Z', '2025-09-14 13:00:00Z', '2025-09-07T21:00:00+02:00'] },
    { as: 'month first', dates: ['9/14/2025', '9/7/2025', '12/28/2024'] },
    { as: 'day first, as one of them shows', dates: ['01/10/2025', '14/09/2025', '02/09/2025'] },
    { as: 'day first, as dots show', dates: ['01.10.2025', '02.09.2025', '03.08.2025'] },
  ])('is that of dates written $as', ({ dates }) => {
    expect(gamesInTime(dated(...dates))).toMatchObject({ places: [2, 1, 0], by: 'date', untimed: 0 });
  });

  it('keeps games of one day as they stand, in one round', () => {
    const { places, rounds } = gamesInTime(dated('2025-09-14', '2025-09-07', '2025-09-14'));
    expect(places).toEqual([1, 0, 2]);
    expect(rounds).toEqual([0, 1, 1]);
  });

  it('has every game in a round of its own where nothing tells their time', () => {
    expect(gamesInTime(games({}, {}, {})).rounds).toEqual([0, 1, 2]);
  });

  it('is that of seasons and weeks, or of either alone', () => {
    const rounds = games(
      { season: '2025', week: '2' },
      { season: '2025', week: '10' },
      { season: '2024', week: '17.0' },
    );
    expect(gamesInTime(rounds)).toMatchObject({ places: [2, 0, 1], by: 'season and week', untimed: 0 });
    expect(gamesInTime(games({ week: '2' }, { week: '1' })).places).toEqual([1, 0]);
    expect(gamesInTime(games({ season: '2' }, { season: '1' })).places).toEqual([1, 0]);
  });

  it('is that of references that begin with their time', () => {
    const weeks = games({ name: '2025_02_otters' }, { name: '2025_01_otters' }, { name: '2024_17_herons' });
    expect(gamesInTime(weeks)).toMatchObject({ places: [2, 1, 0], by: 'reference', untimed: 0 });
    expect(gamesInTime(games({ name: '2025091401' }, { name: '2025090702' })).places).toEqual([1, 0]);
  });

  it('has a game without a date follow the one that it stands behind, where most have one', () => {
    expect(gamesInTime(dated('2025-09-14', '2025-09-07', 'unknown'))).toEqual({
      places: [1, 2, 0],
      rounds: [0, 0, 1],
      by: 'date',
      untimed: 1,
    });
    expect(gamesInTime(dated('', '2025-09-14', '2025-09-07')).places).toEqual([2, 0, 1]);
  });

  it('is rather that of something that every game has than of dates that most have', () => {
    const some = games(
      { date: '2025-09-14', season: '2025', week: '2' },
      { date: '2025-09-07', season: '2025', week: '1' },
      { season: '2024', week: '17' },
    );
    expect(gamesInTime(some)).toMatchObject({ places: [2, 1, 0], by: 'season and week', untimed: 0 });
  });

  it('is that of the file where hardly a game has a date', () => {
    expect(gamesInTime(dated('31.31.2025', '2025-09-07'))).toMatchObject({ places: [0, 1], by: 'file', untimed: 0 });
    expect(gamesInTime([])).toMatchObject({ places: [] });
  });
});
