import { elementAt } from '#domain/statistics/element-at.js';
import type { GameSetup } from './game-state.js';
import { EVENTS, FIRST_ROUND, FORFEIT, STORY_WINNERS, type LeagueEvent } from './league.js';
import { chance, streamFor } from './randomness.js';
import { simulateGame, type PlayedGame } from './simulate-game.js';
import type { Importance } from './snap.js';
import { habitsOf, type Habits } from './tendencies.js';

/** One contest of the season with everything that is true about it. */
export interface SeasonGame {
  readonly reference: string;
  readonly event: LeagueEvent;
  readonly match: { readonly round: number; readonly position: number } | null;
  readonly gameNumber: number;
  readonly home: string;
  readonly away: string;
  readonly playedAt: string;
  readonly importance: Importance;
  readonly quarterMinutes: number;
  readonly played: PlayedGame;
}

export interface SeasonMatch {
  readonly event: LeagueEvent;
  readonly round: number;
  readonly position: number;
  readonly home: string | null;
  readonly away: string | null;
  readonly winner: string | null;
  readonly bestOf: number;
  readonly homeWins: number;
  readonly awayWins: number;
  readonly status: 'open' | 'ready' | 'finished' | 'forfeited';
  readonly scheduledAt: string;
}

export interface Season {
  readonly games: readonly SeasonGame[];
  readonly matches: readonly SeasonMatch[];
}

/** Hours after the first morning at which each round of the bracket begins: two days, four rounds. */
const ROUND_STARTS = [24, 32, 48, 54];

/** Plays all events, in order. */
export function playSeason(): Season {
  const habits = habitsCache();
  const games: SeasonGame[] = [];
  const matches: SeasonMatch[] = [];
  for (const event of EVENTS) {
    games.push(...scrimmages(event, habits), ...pools(event, habits));
    const bracket = playBracket(event, habits);
    games.push(...bracket.games);
    matches.push(...bracket.matches);
  }
  return { games, matches };
}

type HabitsOf = (handle: string) => Habits;

export function habitsCache(): HabitsOf {
  const known = new Map<string, Habits>();
  return (handle) => {
    const habits = known.get(handle) ?? habitsOf(handle);
    known.set(handle, habits);
    return habits;
  };
}

interface Pairing {
  readonly label: string;
  readonly match: SeasonGame['match'];
  readonly gameNumber: number;
  readonly home: string;
  readonly away: string;
  readonly importance: Importance;
  /** Hours after the first morning of the event. */
  readonly hour: number;
}

function playGame(event: LeagueEvent, habits: HabitsOf, pairing: Pairing, attempt = 0): SeasonGame {
  const { label, match, gameNumber, home, away, importance, hour } = pairing;
  const reference = `${event.short}-${label}`;
  const quarterMinutes = importance === 'elimination' ? event.quarterMinutes : event.poolQuarterMinutes;
  const quits = streamFor(`ending of ${reference}`);
  const mayEndEarly = chance(quits, 0.2) ? (chance(quits, 0.7) ? 'conceded' : 'disconnected') : null;
  const setup: GameSetup = { event: event.number, importance, quarterMinutes, mayEndEarly };
  const played = simulateGame(`${reference} ${attempt}`, setup, { home: habits(home), away: habits(away) });
  return {
    reference,
    event,
    match,
    gameNumber,
    home,
    away,
    playedAt: timeOf(event, hour),
    importance,
    quarterMinutes,
    played,
  };
}

function timeOf(event: LeagueEvent, hour: number): string {
  const minutes = Math.round(hour * 60);
  return new Date(Date.parse(`${event.startsOn}T09:00:00Z`) + minutes * 60_000).toISOString();
}

function scrimmages(event: LeagueEvent, habits: HabitsOf): SeasonGame[] {
  return event.scrimmages.map(([home, away], index) =>
    playGame(event, habits, {
      label: `scrimmage-${index + 1}`,
      match: null,
      gameNumber: 1,
      home,
      away,
      importance: 'scrimmage',
      // On the days before the event.
      hour: -96 + 7 * index,
    }),
  );
}

/** Four pools of four by seed, everybody against everybody. */
function pools(event: LeagueEvent, habits: HabitsOf): SeasonGame[] {
  if (!event.pools) return [];
  return [1, 2, 3, 4].flatMap((pool) => {
    const [a, b, c, d] = [pool, 9 - pool, 8 + pool, 17 - pool].map((seed) => elementAt(event.seeds, seed - 1));
    if (a === undefined || b === undefined || c === undefined || d === undefined) return [];
    const pairs = [
      [a, d],
      [b, c],
      [d, b],
      [c, a],
      [a, b],
      [c, d],
    ] as const;
    return pairs.map(([home, away], index) =>
      playGame(event, habits, {
        label: `pool-${pool}-game-${index + 1}`,
        match: null,
        gameNumber: 1,
        home,
        away,
        importance: 'group',
        hour: Math.floor(index / 2) * 1.5 + pool * 0.25,
      }),
    );
  });
}

function playBracket(event: LeagueEvent, habits: HabitsOf): { games: SeasonGame[]; matches: SeasonMatch[] } {
  const games: SeasonGame[] = [];
  const matches: SeasonMatch[] = [];
  let entrants: (string | null)[] = FIRST_ROUND.flat().map((seed) => elementAt(event.seeds, seed - 1));
  for (let round = 1; round <= ROUND_STARTS.length; round += 1) {
    const winners: (string | null)[] = [];
    for (let position = 1; position <= entrants.length / 2; position += 1) {
      const home = elementAt(entrants, 2 * position - 2);
      const away = elementAt(entrants, 2 * position - 1);
      const result = playMatch(event, habits, round, position, home, away);
      games.push(...result.games);
      matches.push(result.match);
      winners.push(result.match.winner);
    }
    entrants = winners;
  }
  return { games, matches };
}

function playMatch(
  event: LeagueEvent,
  habits: HabitsOf,
  round: number,
  position: number,
  home: string | null,
  away: string | null,
): { games: SeasonGame[]; match: SeasonMatch } {
  const hour = elementAt(ROUND_STARTS, round - 1) + (position - 1) * 0.5;
  const bestOf = round >= event.bestOfThreeFrom ? 3 : 1;
  const base = { event, round, position, home, away, bestOf, scheduledAt: timeOf(event, hour) };
  const nothing = { homeWins: 0, awayWins: 0, winner: null };
  if (home === null || away === null) return { games: [], match: { ...base, ...nothing, status: 'open' } };
  if (event.finishedMatches?.has(`${round}.${position}`) === false) {
    return { games: [], match: { ...base, ...nothing, status: 'ready' } };
  }
  if (event.reference === FORFEIT.event && `${round}.${position}` === FORFEIT.match) {
    const winner = home === FORFEIT.absent ? away : home;
    return { games: [], match: { ...base, ...nothing, winner, status: 'forfeited' } };
  }

  const games: SeasonGame[] = [];
  const wins = { home: 0, away: 0 };
  while (Math.max(wins.home, wins.away) <= bestOf / 2) {
    const gameNumber = games.length + 1;
    const game = playWanted(event, habits, {
      label: `round-${round}-match-${position}${bestOf > 1 ? `-game-${gameNumber}` : ''}`,
      match: { round, position },
      gameNumber,
      home,
      away,
      importance: 'elimination',
      hour: hour + (gameNumber - 1) * 0.6,
    });
    wins[game.played.winner] += 1;
    games.push(game);
  }
  const winner = wins.home > wins.away ? home : away;
  return { games, match: { ...base, winner, homeWins: wins.home, awayWins: wins.away, status: 'finished' } };
}

/** Plays the game again with other luck until the story's winner wins; most games have no such wish. */
function playWanted(event: LeagueEvent, habits: HabitsOf, pairing: Pairing): SeasonGame {
  const { round, position } = pairing.match ?? { round: 0, position: 0 };
  const wanted = STORY_WINNERS[`${event.reference} ${round}.${position}`];
  for (let attempt = 0; ; attempt += 1) {
    const game = playGame(event, habits, pairing, attempt);
    if (wanted === undefined || (game.played.winner === 'home' ? game.home : game.away) === wanted) return game;
  }
}
