import { seededRandom } from '../statistics/seeded-random.js';
import { evaluateForecast } from './evaluate-forecast.js';
import { gameCount } from './forecast-snaps.js';
import { readForecastSheet } from './sheet/forecast-sheet.js';
import { situationalLeague } from './testing/situational-league.js';

function sheetOf(seed: number, teams: number, games: number): { header: string[]; rows: string[][] } {
  const header: string[] = [];
  const rows = [...situationalLeague({ seed, teams, games, blank: 0.1 })].map(({ row }) => {
    for (const name of Object.keys(row)) if (!header.includes(name)) header.push(name);
    return header.map((name) => row[name] ?? '');
  });
  return { header, rows: rows.map((row) => header.map((_, at) => row[at] ?? '')) };
}

const silent = (): void => undefined;

describe('an evaluation on a simulated league', () => {
  const { header, rows } = sheetOf(5, 4, 14);
  const { snaps } = readForecastSheet(header, rows, null);
  const blind = evaluateForecast(snaps, 'run-pass', 'situation', 0.7, seededRandom(1), silent);

  it('beats every baseline on games it has not seen, and more so with what shows', () => {
    const seeing = evaluateForecast(snaps, 'run-pass', 'line', 0.7, seededRandom(1), silent);
    expect(blind.baselines.map(({ name }) => name)).toEqual([
      'constant',
      'field by down and distance',
      'player by down and distance',
      'field by formation, down and distance',
    ]);
    for (const { lead } of blind.baselines) expect(lead.difference).toBeLessThan(0);
    expect(blind.baselines[0]?.lead.interval.upper).toBeLessThan(0);
    for (const { lead } of seeing.baselines) expect(lead.difference).toBeLessThan(0);
    expect(seeing.model.logLoss).toBeLessThan(blind.model.logLoss);
    expect(blind.trainGames).toBe(10);
    expect(blind.testGames).toBe(4);
  });

  it('fits nothing to the games that it is judged on, but follows their players', () => {
    // The later games are told backwards: nothing that is fitted may hear of it.
    const cut = rows.findIndex(([game = '']) => game === 'game-00011');
    const called = header.indexOf('called');
    const turned = rows.map((row, at) =>
      at < cut
        ? row
        : row.map((cell, column) => (column === called && cell !== '' ? (cell === 'run' ? 'pass' : 'run') : cell)),
    );
    const other = readForecastSheet(header, turned, null).snaps;
    const after = evaluateForecast(other, 'run-pass', 'situation', 0.7, seededRandom(1), silent);
    expect(after.members.map(({ weight }) => weight)).toEqual(blind.members.map(({ weight }) => weight));
    expect(after.baselines[1]?.scores.plays).toBe(blind.baselines[1]?.scores.plays);
    // Whoever calls the opposite of what he did is found out as the games go on.
    expect(after.model.logLoss).toBeLessThan(after.unfollowed.logLoss - 0.01);
  });

  it('forecasts several classes too', () => {
    const coverage = evaluateForecast(snaps, 'coverage', 'line', 0.7, seededRandom(1), silent);
    expect(coverage.classes).toEqual(expect.arrayContaining(['cover 1', 'cover 3', 'any other']));
    // The simulator tosses a coin for the coverage: nothing can beat one half by much, nor should anything be much worse.
    expect(Math.abs(coverage.model.logLoss - Math.log(2))).toBeLessThan(0.01);
  });

  it('says when there is too little', () => {
    const few = readForecastSheet(header, rows.slice(0, 200), null).snaps;
    expect(gameCount(few)).toBeLessThan(4);
    expect(() => evaluateForecast(few, 'run-pass', 'line', 0.7, seededRandom(1), silent)).toThrow(
      expect.objectContaining({ code: 'forecast.too_little' }),
    );
  });
});

describe('a sheet of another making', () => {
  const header = ['Game', 'Date', 'offense', 'Down', 'distance', 'called', 'formation', 'quarter', 'Weather', 'motion'];
  const rows = [
    ['b', '2025-09-14', 'Herons', '1.0', '10', 'Run', 'Wishbone Deluxe', '1', 'rain', 'None'],
    ['b', '2025-09-14', 'Otters', '2', ' 7.0 ', 'PASS', 'NA', 'first', 'rain', ''],
    ['a', '2025-09-07', 'Herons', '3', '4', 'pass', 'twins', '9999', 'sun', 'orbit'],
  ];
  const { snaps, notes } = readForecastSheet(header, rows, null);

  it('is read as far as it goes, and what was made of the rest is told', () => {
    expect(snaps.plays.count).toBe(3);
    expect([...snaps.called]).toEqual([1, 0, 1]);
    expect([...snaps.plays.number('down').values]).toEqual([3, 1, 2]);
    expect([...snaps.plays.number('distance').values]).toEqual([4, 10, 7]);
    expect([...snaps.counts]).toEqual([1, 1, 1]);
    expect(notes.ignoredColumns).toEqual(['Weather']);
    expect(notes.unreadCells).toEqual(new Map([['quarter', { cells: 2, example: 'first' }]]));
    expect(notes.ownWords).toEqual(new Map([['formation', 1]]));
    expect(notes.orderedBy).toBe('date');
  });

  it('makes the other player of a game the defense', () => {
    expect([...snaps.game]).toEqual([0, 1, 1]);
    expect(snaps.offense[1]).toBe(snaps.defense[2]);
    expect(snaps.offense[2]).toBe(snaps.defense[1]);
    expect(snaps.defense[0]).toBe(-1);
  });

  it('may have headers of its own, with a mapping', () => {
    const mapped = readForecastSheet(
      ['gid', 'club', 'situation', 'type', 'look'],
      [['1', 'Herons', '3rd & 7', 'P', 'gun']],
      {
        columns: [
          { header: 'gid', to: 'game' },
          { header: 'club', to: 'offense' },
          { header: 'situation', read: 'down and distance' },
          { header: 'type', to: 'called', words: [{ word: 'P', is: { called: 'pass' } }] },
        ],
        constants: { playType: 'scrimmage' },
        answers: [],
        us: null,
        order: 'rows',
      },
    );
    expect([...mapped.snaps.called]).toEqual([1]);
    expect([...mapped.snaps.plays.number('distance').values]).toEqual([7]);
    expect(mapped.notes.ignoredColumns).toEqual(['look']);
  });

  it('is read by what its headers usually mean where they are not the names of fields', () => {
    const guessed = readForecastSheet(
      ['Game ID', 'offense', 'clock', 'Score differential', 'yards to go', 'run or pass', 'Weather'],
      [['1', 'Herons', '14:05', '-7', '4', 'Pass', 'rain']],
      null,
    );
    expect([...guessed.snaps.called]).toEqual([1]);
    expect([...guessed.snaps.plays.number('clockSeconds').values]).toEqual([845]);
    expect([...guessed.snaps.plays.number('scoreDifference').values]).toEqual([-7]);
    expect(guessed.notes.ignoredColumns).toEqual(['Weather']);
    expect(guessed.notes.guessedColumns).toEqual(
      new Map([
        ['Game ID', 'game'],
        ['clock', 'clockSeconds'],
        ['Score differential', 'scoreDifference'],
        ['yards to go', 'distance'],
        ['run or pass', 'called'],
      ]),
    );
  });

  it('takes a header for a field only where no column has the name of that field', () => {
    const both = readForecastSheet(
      ['game', 'offense', 'time', 'clockSeconds', 'down'],
      [['1', 'Herons', '20:15', '60', '1']],
      null,
    );
    expect([...both.snaps.plays.number('clockSeconds').values]).toEqual([60]);
    expect(both.notes.ignoredColumns).toEqual(['time']);
  });

  it('is told which fields to take no notice of', () => {
    const without = readForecastSheet(header, rows, null, new Set(['formation', 'down'] as const)).snaps;
    expect([...without.plays.columns.keys()].filter((name) => name === 'formation' || name === 'down')).toEqual([]);
    expect([...without.called]).toEqual([1, 0, 1]);
  });

  it('needs no column of games where days and sides tell them apart', () => {
    const sheet = readForecastSheet(
      ['date', 'offense', 'defense', 'playType', 'called'],
      [
        ['9/14/2025', 'Herons', 'Otters', 'rush attempt', 'run'],
        ['9/14/2025', 'Otters', 'Herons', 'QB_Kneel', 'run'],
        ['9/7/2025', 'Otters', 'Herons', '', 'pass'],
      ],
      null,
    );
    expect([...sheet.snaps.game]).toEqual([0, 1, 1]);
    expect([...sheet.snaps.counts]).toEqual([1, 1, 0]);
    expect(sheet.notes.unreadCells.get('playType')).toEqual({ cells: 1, example: 'rush attempt' });
  });

  it('must hold a play', () => {
    for (const nothing of [[], [['a', '', '']]]) {
      expect(() => readForecastSheet(['game', 'hash', 'down'], nothing, null)).toThrow(
        expect.objectContaining({ code: 'forecast.unusable_sheet' }),
      );
    }
  });

  it('must say which game a play belongs to', () => {
    expect(() => readForecastSheet(['down'], [['1']], null)).toThrow(
      expect.objectContaining({ code: 'forecast.unusable_sheet' }),
    );
  });
});
