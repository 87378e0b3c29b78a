import { CHARTERS, NEXT_OPPONENT, OUR_PLAYER, type Charter } from './league.js';
import { ADOPTED_IN, HAS_THE_ANSWER } from './planted.js';
import { between, chance, oneOf, streamFor } from './randomness.js';
import type { SeasonGame } from './season.js';
import { WHOLE_FILM, type FilmScope } from '#domain/charting/film-scope.js';

/** Which film exists, who charted what of it, and what went wrong. */

export interface ChartPlan {
  readonly reference: string;
  readonly charter: Charter;
  readonly filmScope: FilmScope;
  readonly mess: readonly Mess[];
}

/** A planted slip of the charter, told in data/planted-mess.json. */
export type Mess =
  | { readonly kind: 'spot off by one'; readonly order: number }
  | { readonly kind: 'spot off by ten'; readonly order: number }
  | { readonly kind: 'wrong down'; readonly order: number }
  /** The snap of that order was missed; what follows is numbered as if it had not been. */
  | { readonly kind: 'missed snap'; readonly order: number };

/** Charted by the organizer and open to everyone. The first is a contest that we have charted too. */
export const ARCHIVED_GAMES: readonly string[] = [
  'kettle-round-2-match-4',
  'kettle-round-2-match-1',
  'kettle-round-3-match-1',
  'kettle-round-4-match-1',
];
/** Of these our clan has not even a record. */
export const UNKNOWN_TO_US: ReadonlySet<string> = new Set(ARCHIVED_GAMES.slice(2));

/** Film that exists and that we have not charted: a queue should find it, the next opponent's before all. */
const NEVER_CHARTED: ReadonlySet<string> = new Set([
  'weathervane-round-1-match-7',
  'thimble-pool-4-game-1',
  ...ARCHIVED_GAMES.slice(1),
]);

const THIRD_DOWNS_ONLY = 'thimble-pool-4-game-4';
const CHARTED_TWICE = 'thimble-pool-4-game-5';
/** The second chart of that game was made quickly, so that two charts have something to differ in. */
const IN_A_HURRY: Charter = { ...CHARTERS.inkwell, slipShare: 0.1, windsBack: false };
/** Only the snaps of one side were charted. */
const ONE_SIDE: Readonly<Record<string, 'home' | 'away'>> = {
  'kettle-pool-2-game-2': 'away',
  'thimble-round-1-match-5': 'home',
};

const MESS: Readonly<Record<string, readonly Mess[]>> = {
  'kettle-round-1-match-8': [{ kind: 'spot off by one', order: 21 }],
  'kettle-round-1-match-6': [{ kind: 'wrong down', order: 34 }],
  'thimble-round-1-match-3': [{ kind: 'missed snap', order: 46 }],
  'thimble-round-1-match-4': [{ kind: 'spot off by ten', order: 27 }],
  'weathervane-scrimmage-4': [{ kind: 'spot off by one', order: 52 }],
  'weathervane-round-1-match-8': [{ kind: 'spot off by one', order: 13 }],
};

/** How many of a player's games we have charted: a few for most, more of the two that matter. */
function filmLimit(handle: string): number {
  if (handle === NEXT_OPPONENT) return 11;
  if (handle === OUR_PLAYER) return 12;
  return between(streamFor(`film of ${handle}`), 5, 6);
}

/** Whose film comes first: what both clans have charted, our own and the next opponent's, then games that meet the call that spreads with its answer. */
function rankOfFilm({ reference, home, away }: SeasonGame): number {
  if (reference === ARCHIVED_GAMES[0]) return 0;
  const players = [home, away];
  if (players.includes(OUR_PLAYER) || players.includes(NEXT_OPPONENT)) return 0;
  const answered = players.some((one) => HAS_THE_ANSWER.includes(one)) && players.some((one) => one in ADOPTED_IN);
  return answered ? 1 : 2;
}

/** References of the games that our clan has charted: as many as the limits of both players leave room for. */
export function chartedByUs(games: readonly SeasonGame[]): ReadonlySet<string> {
  const counts = new Map<string, number>();
  const room = (handle: string): boolean => (counts.get(handle) ?? 0) < filmLimit(handle);
  const charted = new Set<string>();
  const inOrder = [...games].sort(
    (one, other) => rankOfFilm(one) - rankOfFilm(other) || Date.parse(other.playedAt) - Date.parse(one.playedAt),
  );
  for (const game of inOrder) {
    if (!room(game.home) || !room(game.away) || NEVER_CHARTED.has(game.reference)) continue;
    charted.add(game.reference);
    for (const handle of [game.home, game.away]) counts.set(handle, (counts.get(handle) ?? 0) + 1);
  }
  return charted;
}

/** The charts that our clan made of one game. */
export function chartPlans(game: SeasonGame): readonly ChartPlan[] {
  const { reference } = game;
  const random = streamFor(`charters of ${reference}`);
  const charter = isOurs(game)
    ? CHARTERS.pennyfold
    : oneOf(random, [CHARTERS.pennyfold, CHARTERS.inkwell, CHARTERS.marrowby]);
  const mess = MESS[reference] ?? [];
  const scope = (part: Partial<FilmScope>): FilmScope => ({ ...WHOLE_FILM, ...part });
  if (reference === THIRD_DOWNS_ONLY) {
    return [{ reference: 'thirds', charter: CHARTERS.inkwell, filmScope: scope({ downs: [3] }), mess }];
  }
  const main = { reference: 'main', charter, filmScope: scope({ offense: ONE_SIDE[reference] ?? null }), mess };
  if (reference !== CHARTED_TWICE) return [main];
  return [main, { reference: 'second', charter: IN_A_HURRY, filmScope: WHOLE_FILM, mess: [] }];
}

export const ARCHIVE_PLAN: ChartPlan = {
  reference: 'main',
  charter: CHARTERS.tallysheet,
  filmScope: WHOLE_FILM,
  mess: [],
};

export function isOurs({ home, away }: SeasonGame): boolean {
  return home === OUR_PLAYER || away === OUR_PLAYER;
}

interface Video {
  readonly kind: 'own view' | 'opponent view' | 'neutral' | 'highlights';
  readonly url: string;
  readonly offsetSeconds: number;
}

/** What was filmed: every charted and every bracket game, half of the others. */
export function videosOf(game: SeasonGame, charted: boolean): readonly Video[] {
  const random = streamFor(`videos of ${game.reference}`);
  const filmed = charted || game.importance === 'elimination' || chance(random, 0.5);
  if (!filmed) return [];
  const video = (kind: Video['kind'], suffix: string): Video => ({
    kind,
    url: `https://video.example/${game.reference}${suffix}`,
    offsetSeconds: suffix === '' ? 0 : between(random, 2, 40),
  });
  const first = isOurs(game) ? video('own view', '') : video(chance(random, 0.6) ? 'neutral' : 'opponent view', '');
  return chance(random, 0.2) ? [first, video('highlights', '-highlights')] : [first];
}
