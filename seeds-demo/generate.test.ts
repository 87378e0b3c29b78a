import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { checkPlay } from '#domain/charting/check-play.js';
import { WHOLE_FILM, type FilmScope } from '#domain/charting/film-scope.js';
import { columnsFromPlays, type ChartedPlay, type PlayValue } from '#domain/charting/play-columns.js';
import { PLAY_FIELDS, playField, type PlayField } from '#domain/charting/play-fields.js';
import { readCell } from '#domain/charting/read-cell.js';
import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { continuityBreaks } from '#domain/football/continuity.js';
import { NEXT_OPPONENT, OUR_PLAYER } from './league.js';

interface DemoRecord {
  readonly [part: string]: unknown;
  readonly filmScope?: FilmScope;
  readonly adjustments?: readonly { readonly term: string }[];
}

const FOLDER = path.join(__dirname, 'data');
const VOCABULARY = starterVocabulary();
/** Properties of a play record that are no fields of the catalogue. */
const FRAME = ['record', 'game', 'chart', 'order', 'offense', 'adjustments', 'note'];

const files = readdirSync(FOLDER).sort();
const textOf = (name: string): string => readFileSync(path.join(FOLDER, name), 'utf8');
const parsed = (text: string): DemoRecord => {
  const record: DemoRecord = JSON.parse(text);
  return record;
};
const recordsOf = (start: string): DemoRecord[] =>
  files
    .filter((name) => name.startsWith(start) && name.endsWith('.jsonl'))
    .flatMap((name) => textOf(name).trimEnd().split('\n').map(parsed));
const only = (records: readonly DemoRecord[], kind: string): DemoRecord[] =>
  records.filter(({ record }) => record === kind);

const clan = recordsOf('clan-');
const archive = recordsOf('archive');
const plays = [...only(clan, 'play'), ...only(archive, 'play')];

describe('the demo league', () => {
  const fresh = mkdtempSync(path.join(tmpdir(), 'demo-league-'));
  afterAll(() => {
    rmSync(fresh, { recursive: true });
  });

  it('comes out of the generator byte for byte as it was committed', () => {
    // As a person would run it; inside Jest the generator takes four times as long.
    const command = ['--conditions=source', '--import', '@swc-node/register/esm-register', 'seeds-demo/generate.ts'];
    execFileSync(process.execPath, [...command, fresh], { cwd: path.join(__dirname, '..') });
    expect(readdirSync(fresh).sort()).toEqual(files);
    for (const name of files) {
      const same = readFileSync(path.join(fresh, name), 'utf8') === textOf(name);
      expect(same ? name : `${name} differs`).toBe(name);
    }
  });

  it('is a season of three events, as thin as life', () => {
    expect(only(clan, 'player')).toHaveLength(24);
    expect(only(clan, 'event').map(({ status }) => status)).toEqual(['finished', 'finished', 'running']);
    expect(new Set(only(clan, 'chart').map(({ game }) => game)).size).toBeGreaterThanOrEqual(60);
    expect(only(clan, 'play').length).toBeGreaterThanOrEqual(5000);
    expect(only(archive, 'chart')).toHaveLength(4);
    expect(only(clan, 'menuCall').length).toBeGreaterThanOrEqual(20);
    expect(files.reduce((sum, name) => sum + textOf(name).length, 0)).toBeLessThan(4.2 * 1024 * 1024);
  });

  it('leaves our quarter-final to be played, with both sides known', () => {
    const next = only(clan, 'match').filter(
      ({ status, home, away }) => status === 'ready' && [home, away].includes(OUR_PLAYER),
    );
    expect(next).toEqual([expect.objectContaining({ round: 2, position: 4, home: NEXT_OPPONENT, away: OUR_PLAYER })]);
  });

  it.each([
    ['our records', clan],
    ['the archive', archive],
  ])('names nothing in %s before it was introduced', (_, records) => {
    const seen = {
      player: new Set<unknown>(),
      event: new Set<unknown>(),
      game: new Set<unknown>(),
      chart: new Set<unknown>(),
    };
    for (const record of records) {
      const players = ['player', 'home', 'away', 'winner', 'offense'].map((part) => record[part]);
      for (const player of players) if (typeof player === 'string') expect(seen.player).toContain(player);
      if (typeof record['event'] === 'string') expect(seen.event).toContain(record['event']);
      if (typeof record['game'] === 'string') expect(seen.game).toContain(record['game']);
      if (record['record'] === 'play')
        expect(seen.chart).toContain(`${String(record['game'])} ${String(record['chart'])}`);
      if (record['record'] === 'player') seen.player.add(record['handle']);
      if (record['record'] === 'event') seen.event.add(record['reference']);
      if (record['record'] === 'game') seen.game.add(record['reference']);
      if (record['record'] === 'chart') seen.chart.add(`${String(record['game'])} ${String(record['reference'])}`);
    }
  });

  it('links players and contests to records that the archive has', () => {
    const ids = new Set(only(archive, 'player').map(({ id }) => id));
    const contests = new Set(only(archive, 'game').map(({ contestId }) => contestId));
    const linkedPlayers = only(clan, 'player').flatMap(({ linkedPlayerId }) => linkedPlayerId ?? []);
    const linkedGames = only(clan, 'game').flatMap(({ linkedContestId }) => linkedContestId ?? []);
    expect(linkedPlayers).toHaveLength(16);
    expect(linkedGames).toHaveLength(2);
    const charted = new Set(only(clan, 'chart').map(({ game }) => game));
    const both = only(clan, 'game').filter(
      ({ reference, linkedContestId }) => linkedContestId !== undefined && charted.has(reference),
    );
    expect(both).toHaveLength(1);
    expect(linkedPlayers.filter((id) => !ids.has(id))).toEqual([]);
    expect(linkedGames.filter((id) => !contests.has(id))).toEqual([]);
  });

  it('has ids of its own for everything, in the shape of UUIDs', () => {
    const ids = [...clan, ...archive].flatMap(({ id }) => id ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });

  it('uses fields of the catalogue and words of the starter vocabulary only', () => {
    expect(plays.flatMap(problemsOf)).toEqual([]);
    const details = plays.flatMap(({ adjustments }) => adjustments ?? []);
    expect(details.length).toBeGreaterThan(100);
    expect(details.filter(({ term }) => VOCABULARY.find('preSnapAdjustment', term).status !== 'found')).toEqual([]);
  });

  it('lets every play follow from the one before, but for the breaks that were planted', () => {
    const mess: readonly DemoRecord[] = JSON.parse(textOf('planted-mess.json'));
    const planted = new Set(mess.filter(({ what }) => what !== 'spot off by one').map(({ game }) => game));
    const broken = [...breaksByGame(clan), ...breaksByGame(archive)];
    expect(new Set(broken.map(({ game }) => game))).toEqual(planted);
  });

  it('shows on film what meets the call that spreads, and where its answer sends it', () => {
    const calls = plays.filter(({ concept }) => concept === 'counter read');
    const seen = calls.filter(({ front, coverage }) => front !== undefined && coverage !== undefined);
    expect(seen.length).toBeGreaterThan(0.7 * calls.length);
    const tight = seen.filter(({ front }) => ['three down tight', 'tite'].includes(String(front)));
    const held = tight.filter(({ coverage }) => coverage === 'cover 3 sky');
    const forced = seen.filter(({ offDesign }) => offDesign === 'forced by a set edge');
    expect(held.length).toBeGreaterThan(15);
    expect(held.filter((play) => forced.includes(play)).length).toBeGreaterThan(held.length / 2);
    expect(forced.filter((play) => !tight.includes(play))).toEqual([]);
  });

  it('rises through the video within a chart', () => {
    for (const chart of chartsOf(clan)) {
      const seconds = chart.plays.flatMap(({ snapSecond }) => (typeof snapSecond === 'number' ? [snapSecond] : []));
      expect(seconds).toEqual([...seconds].sort((one, other) => one - other));
    }
  });
});

function valuesOf(play: DemoRecord): PlayValue[] {
  return PLAY_FIELDS.map((field: PlayField) => {
    const reading = readCell(field, play[field.name], VOCABULARY);
    return reading.ok ? reading.value : null;
  });
}

function problemsOf(play: DemoRecord): string[] {
  const where = `${String(play['game'])} ${String(play['chart'])} ${String(play['order'])}`;
  const words = Object.entries(play).flatMap(([name, value]) => {
    if (FRAME.includes(name)) return [];
    const field = playField(name);
    if (field === undefined) return [`${where}: no field ${name}`];
    const reading = readCell(field, value, VOCABULARY);
    return reading.ok ? [] : [`${where}: ${name} is ${JSON.stringify(value)}, expected ${reading.expected}`];
  });
  return [
    ...words,
    ...checkPlay(valuesOf(play)).map(({ field, found, expected }) => `${where}: ${field} ${found}, ${expected}`),
  ];
}

interface Chart {
  readonly game: DemoRecord;
  readonly filmScope: FilmScope;
  readonly plays: readonly DemoRecord[];
}

function chartsOf(records: readonly DemoRecord[]): Chart[] {
  return only(records, 'chart').flatMap((chart) => {
    const game = only(records, 'game').find(({ reference }) => reference === chart['game']);
    const inChart = only(records, 'play').filter(
      (play) => play['game'] === chart['game'] && play['chart'] === chart['reference'],
    );
    return game === undefined ? [] : [{ game, filmScope: chart.filmScope ?? WHOLE_FILM, plays: inChart }];
  });
}

function breaksByGame(records: readonly DemoRecord[]): { game: unknown; message: string }[] {
  return chartsOf(records).flatMap(({ game, filmScope, plays: inChart }) => {
    const charted = inChart.map((play, place): ChartedPlay => ({
      playNumber: place + 1,
      orderInGame: Number(play['order']),
      offenseIsHome: play['offense'] === game['home'],
      values: valuesOf(play),
    }));
    const columns = columnsFromPlays({ chartId: 'chart', gameId: String(game['reference']) }, charted);
    return continuityBreaks(columns, filmScope, VOCABULARY).map(({ message }) => ({
      game: game['reference'],
      message,
    }));
  });
}
