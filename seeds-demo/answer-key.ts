import { PLAYERS } from './league.js';
import { ADOPTED_IN, HAS_THE_ANSWER, HOLDING_ANSWER, SPREADING_CALL } from './planted.js';
import { PLANTED_TENDENCIES, type PlantedTendency } from './planted-questions.js';
import { isHeld, isSpreadingCall, WHY_IT_HOLDS } from './spreading-call.js';
import { habitsCache, type SeasonGame } from './season.js';
import { otherSide, type GameSetup } from './game-state.js';
import { simulateGame } from './simulate-game.js';
import type { TruePlay } from './snap.js';

/**
 * The hidden truth in words and shares. Habits act on one another (a plan per game, plants before habits), so the true
 * share is not a parameter that could be printed: it is counted over a long run of games that nobody ever charts.
 */

interface Owned {
  readonly play: TruePlay;
  readonly event: number;
  readonly offense: string;
  readonly defense: string;
}

export function answerKey(games: readonly SeasonGame[], charted: ReadonlySet<string>): object {
  const longRun = longRunSnaps();
  const film = games
    .filter(({ reference }) => charted.has(reference))
    .flatMap((game) => owned(game.event.number, game.home, game.away, game.played.plays));
  return {
    about:
      'What was planted. True share and field share are counted over a long run of games outside the season; on film counts the snaps of our charted games as they were, seen or not.',
    tendencies: PLANTED_TENDENCIES.map((planted) => ({
      who: planted.who,
      side: planted.side,
      when: planted.when,
      what: planted.what,
      trueShare: shareOf(longRun, planted, true),
      fieldShare: shareOf(longRun, planted, false),
      onFilm: countOf(film, planted),
    })),
    spreadingCall: spreadingCall(longRun, film),
    rulesVersion: {
      from: '2026.1',
      to: '2026.2',
      what: 'wide receiver screens gain less for everybody; nobody calls them less often because of it',
      meanYardsBefore: meanYards(longRun.filter(isScreen).filter(({ event }) => event < 3)),
      meanYardsAfter: meanYards(longRun.filter(isScreen).filter(({ event }) => event === 3)),
    },
    changeOfPlayer:
      'rustlepine, and only rustlepine, went over to an empty backfield in event 3: a change of the player, not of the rules version.',
  };
}

function longRunSnaps(): Owned[] {
  const habits = habitsCache();
  const result: Owned[] = [];
  for (const event of [1, 2, 3]) {
    PLAYERS.forEach(({ handle: home }, index) => {
      PLAYERS.slice(index + 1).forEach(({ handle: away }, place) => {
        const setup: GameSetup = {
          event,
          importance: (event + place) % 2 === 0 ? 'group' : 'elimination',
          quarterMinutes: 4,
          mayEndEarly: null,
        };
        const both = { home: habits(home), away: habits(away) };
        const { plays } = simulateGame(`long run ${event} ${home} ${away}`, setup, both);
        result.push(...owned(event, home, away, plays));
      });
    });
  }
  return result;
}

function owned(event: number, home: string, away: string, plays: readonly TruePlay[]): Owned[] {
  const handles = { home, away };
  return plays.map((play) => ({
    play,
    event,
    offense: handles[play.offense],
    defense: handles[otherSide(play.offense)],
  }));
}

function asked(snaps: readonly Owned[], { who, side, event, applies }: PlantedTendency, ofPlayer: boolean): Owned[] {
  return snaps.filter(
    (snap) => (snap[side] === who) === ofPlayer && (event === undefined || event === snap.event) && applies(snap.play),
  );
}

function shareOf(snaps: readonly Owned[], planted: PlantedTendency, ofPlayer: boolean): number {
  const all = asked(snaps, planted, ofPlayer);
  return twoDigits(all.filter(({ play }) => planted.holds(play)).length / all.length);
}

function countOf(snaps: readonly Owned[], planted: PlantedTendency): string {
  const all = asked(snaps, planted, true);
  return `${all.filter(({ play }) => planted.holds(play)).length} of ${all.length}`;
}

function spreadingCall(longRun: readonly Owned[], film: readonly Owned[]): object {
  const calls = longRun.filter(({ play }) => isSpreadingCall(play.values));
  const against = calls.filter(({ play }) => isHeld(play.values));
  const otherwise = calls.filter(({ play }) => !isHeld(play.values));
  return {
    call: SPREADING_CALL,
    usedSinceEvent: ADOPTED_IN,
    answer: HOLDING_ANSWER,
    heldBy: HAS_THE_ANSWER,
    heldSinceEvent: 2,
    why: WHY_IT_HOLDS,
    shareForcedAgainstTheAnswer: shareForced(against),
    shareForcedOtherwise: shareForced(otherwise),
    meanYardsAgainstTheAnswer: meanYards(against),
    meanYardsOtherwise: meanYards(otherwise),
    meanYardsOfOtherRuns: meanYards(
      longRun.filter(({ play }) => play.values.callFamily === 'run' && play.values.snapResult === 'rushed'),
    ),
    onFilm: [1, 2, 3].map((event) => {
      const snaps = film.filter((snap) => snap.event === event && snap.play.values.playType === 'scrimmage');
      const used = snaps.filter(({ play }) => isSpreadingCall(play.values));
      return {
        event,
        calls: `${used.length} of ${snaps.length}`,
        players: new Set(used.map(({ offense }) => offense)).size,
        meanYards: meanYards(used),
        againstTheAnswer: used.filter(({ play }) => isHeld(play.values)).length,
      };
    }),
    withoutAStory: WITHOUT_A_STORY.map((call) => ({
      call,
      onFilm: [1, 2, 3].map((event) => {
        const snaps = film.filter((snap) => snap.event === event && snap.play.values.playType === 'scrimmage');
        return `${snaps.filter(({ play }) => play.values.concept === call).length} of ${snaps.length}`;
      }),
    })),
  };
}

/** Calls of much the same kind that nobody took up or gave up. */
const WITHOUT_A_STORY = ['inside zone', 'counter'];

function shareForced(snaps: readonly Owned[]): number {
  const forced = snaps.filter(({ play }) => play.values.offDesign === WHY_IT_HOLDS);
  return twoDigits(forced.length / snaps.length);
}

function isScreen({ play }: Owned): boolean {
  return play.values.concept === 'wide receiver screen';
}

function meanYards(snaps: readonly Owned[]): number {
  const gains = snaps.flatMap(({ play }) => play.values.yardsGained ?? []);
  return twoDigits(gains.reduce((sum, gain) => sum + gain, 0) / gains.length);
}

function twoDigits(value: number): number {
  return Math.round(value * 100) / 100;
}
