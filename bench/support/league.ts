import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { STARTER_TERMS } from '#domain/charting/starter-vocabulary.js';
import { seededRandom } from '#domain/statistics/seeded-random.js';

/** How large a league of invented plays is; every game has the same number of plays, half of them by either side. */
export interface LeagueSize {
  readonly games: number;
  readonly playsAGame: number;
  /** Games of the first player; the others share the rest evenly. */
  readonly gamesOfTheFirst: number;
  readonly players: number;
  readonly seed: number;
}

export const handleOf = (player: number): string => `player-${player}`;
export const gameOf = (game: number): string => `game-${game}`;

/** Fields that a careful chart fills, and how often. */
const CHARTED: Readonly<Record<string, number>> = {
  quarter: 1,
  clockSeconds: 1,
  scoreDifference: 1,
  down: 1,
  distance: 1,
  yardsToGoal: 1,
  hash: 0.9,
  drive: 1,
  tempo: 0.5,
  offensivePersonnel: 0.8,
  formation: 0.95,
  strength: 0.9,
  backfield: 0.9,
  motion: 0.8,
  front: 0.6,
  shell: 0.7,
  boxCount: 0.5,
  snapSecond: 1,
  callFamily: 0.95,
  concept: 0.8,
  designedSide: 0.6,
  coverage: 0.4,
  rushers: 0.6,
  pressure: 0.4,
  target: 0.5,
  targetDepth: 0.5,
  snapResult: 1,
  yardsGained: 1,
};

const WORDS: ReadonlyMap<string, readonly string[]> = new Map(
  PLAY_FIELDS.map((field) => [
    field.name,
    field.type === 'choice'
      ? field.choices
      : field.type === 'term'
        ? STARTER_TERMS.filter((term) => term.kind === field.kind)
            .slice(0, 12)
            .map((term) => term.name)
        : [],
  ]),
);

/** The players and games of a league, as JSON Lines. */
export function leagueRecords(size: LeagueSize): string {
  const players = Array.from({ length: size.players }, (_, player) => ({ record: 'player', handle: handleOf(player) }));
  const games = Array.from({ length: size.games }, (_, game) => {
    const [home, away] = pairing(size, game);
    const day = new Date(Date.UTC(2026, 0, 1 + (game % 300))).toISOString();
    return {
      record: 'game',
      reference: gameOf(game),
      home: handleOf(home),
      away: handleOf(away),
      playedAt: day,
      importance: 'group',
      rulesVersion: '1',
    };
  });
  return [...players, ...games].map((record) => `${JSON.stringify(record)}\n`).join('');
}

function pairing({ gamesOfTheFirst, players }: LeagueSize, game: number): readonly [number, number] {
  if (game < gamesOfTheFirst) return [0, 1 + (game % (players - 1))];
  const home = 1 + (game % (players - 1));
  const away = 1 + ((game * 7 + 3) % (players - 1));
  return [home, home === away ? 1 + (home % (players - 1)) : away];
}

/** The plays of a league as one sheet. Random words that never contradict themselves; nothing here is football. */
export function* leagueSheet(size: LeagueSize): Generator<string> {
  const random = seededRandom(size.seed);
  const columns = Object.keys(CHARTED);
  yield `game,order,offense,playType,${columns.join(',')}\n`;
  for (let game = 0; game < size.games; game += 1) {
    const [home, away] = pairing(size, game);
    let rows = '';
    for (let order = 1; order <= size.playsAGame; order += 1) {
      const offense = handleOf(order % 2 === 1 ? home : away);
      const cells = columns.map((column) => (random() < (CHARTED[column] ?? 0) ? cell(column, order, random) : ''));
      rows += `${gameOf(game)},${order},${offense},scrimmage,${cells.join(',')}\n`;
    }
    yield rows;
  }
}

function cell(column: string, order: number, random: () => number): string {
  const below = (count: number): number => Math.floor(random() * count);
  switch (column) {
    case 'quarter':
      return String(Math.min(4, 1 + Math.floor(order / 38)));
    case 'clockSeconds':
      return String(240 - below(240));
    case 'scoreDifference':
      return String(below(29) - 14);
    case 'down':
      return String(1 + below(4));
    case 'distance':
      return String(1 + below(12));
    case 'yardsToGoal':
      return String(20 + below(70));
    case 'drive':
      return String(1 + Math.floor(order / 8));
    case 'boxCount':
      return String(5 + below(4));
    case 'rushers':
      return String(3 + below(4));
    case 'snapSecond':
      return String(order * 30 + below(10));
    case 'yardsGained':
      return String(below(20) - 4);
    default: {
      const words = WORDS.get(column) ?? [];
      // Squared, so that some words are much more frequent than others, as in life.
      return `"${words[Math.floor(random() ** 2 * words.length)] ?? ''}"`;
    }
  }
}
