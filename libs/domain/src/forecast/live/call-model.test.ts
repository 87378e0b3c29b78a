import fc from 'fast-check';
import { PlayColumns, type Column } from '../../charting/play-columns.js';
import type { PlayFieldName } from '../../charting/play-fields.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../tendencies/classify-plays.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { readForecastSheet } from '../sheet/forecast-sheet.js';
import { situationalLeague } from '../testing/situational-league.js';
import { callArchive } from './call-archive.js';
import { askModel, fitCallModel } from './call-model.js';
import type { GameTold } from './game-in-progress.js';
import { nextCall, type KnownLooks, type NextCall } from './next-call.js';

function league(seed: number, games: number) {
  const header: string[] = [];
  const rows = [...situationalLeague({ seed, teams: 4, games, blank: 0.2 })].map(({ row }) => {
    for (const name of Object.keys(row)) if (!header.includes(name)) header.push(name);
    return header.map((name) => row[name] ?? '');
  });
  return readForecastSheet(header, rows, null).snaps;
}

const { plays, vocabulary, game, offense } = league(611, 8);
const facts = classifyPlays(plays, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
const archive = callArchive('run-pass', facts, offense, vocabulary);
const fitted = fitCallModel(archive);
const PLAYER = offense[0] ?? -1;
/** The first game of the league, of the player who has the ball first. */
const GAME = [...game.keys()].filter((play) => game[play] === 0 && offense[play] === PLAYER);

/** Some plays of the league by themselves, as a question brings them. */
function asked(places: readonly number[]): { facts: TendencyPlays; classOf: Int32Array } {
  const pick = <Values extends { [place: number]: number; slice(from: number, to: number): Values; length: number }>(
    of: Values,
  ): Values => {
    const picked = of.slice(0, places.length);
    places.forEach((place, at) => {
      picked[at] = of[place] ?? 0;
    });
    return picked;
  };
  const columns = new Map<PlayFieldName, Column>();
  for (const [name, column] of plays.columns) {
    if ('values' in column) columns.set(name, { values: pick(column.values) });
    if ('values' in column || 'starts' in column) continue;
    const codes = pick(column.codes);
    // As in a batch that was built of these plays alone: what none of them says has no column.
    if (codes.some((code) => code >= 0)) columns.set(name, { codes, meanings: column.meanings });
  }
  const batch = new PlayColumns({
    charts: [{ chartId: '', gameId: '' }],
    chartIndex: new Int32Array(places.length),
    playNumber: pick(plays.playNumber),
    orderInGame: pick(plays.orderInGame),
    offenseIsHome: new Uint8Array(places.length).fill(1),
    columns,
  });
  const of = classifyPlays(batch, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
  return { facts: of, classOf: Int32Array.from(of.called) };
}

describe('a game in progress', () => {
  it('says the same told snap by snap, in parts, or whole', () => {
    if (fitted === null) throw new Error('the archive is too thin for a model');
    const lengths = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(lengths, (parts) => {
        let told: GameTold | null = null;
        let over = 0;
        for (const part of parts) {
          const until = Math.min(over + part, GAME.length - 1);
          const now = askModel(fitted, PLAYER, asked(GAME.slice(over, until + 1)), told);
          const whole = askModel(fitted, PLAYER, asked(GAME.slice(0, until + 1)));
          expect([...now.shares]).toEqual([...whole.shares]);
          expect(now.told.known).toBe(whole.told.known);
          expect([...now.told.counts]).toEqual([...whole.told.counts]);
          now.told.expected.forEach((sum, k) => {
            expect(sum).toBeCloseTo(whole.told.expected[k] ?? 0, 9);
          });
          told = now.told;
          over = until;
        }
      }),
      { seed: 1, numRuns: 30 },
    );
  });

  it('is answered the same whether the look was asked about before or not', () => {
    if (fitted === null) throw new Error('the archive is too thin for a model');
    const looks: KnownLooks = new Map();
    const plain = ({ probabilities, counted, since }: NextCall) => ({
      probabilities,
      steps: [...counted, ...since].map(({ evidence, ...step }) => ({ ...step, places: evidence?.places() })),
    });
    for (const until of [3, 5, 3, 5]) {
      const of = asked(GAME.slice(0, until));
      const says = askModel(fitted, PLAYER, of);
      expect(plain(nextCall(archive, PLAYER, of, says, looks))).toEqual(plain(nextCall(archive, PLAYER, of, says)));
    }
    expect(looks.size).toBeGreaterThan(0);
  });
});
