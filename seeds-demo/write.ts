import { elementAt } from '#domain/statistics/element-at.js';
import { answerKey } from './answer-key.js';
import { asCharted } from './as-charted.js';
import {
  ARCHIVE_PLAN,
  ARCHIVED_GAMES,
  chartedByUs,
  chartPlans,
  isOurs,
  UNKNOWN_TO_US,
  videosOf,
  type ChartPlan,
} from './film.js';
import { EVENTS, ORGANIZER_CLAN, OUR_CLAN, OUR_PLAYER, PLAYERS, SQUADS, type LeagueEvent } from './league.js';
import { MENU } from './menu.js';
import { chance, fixedId, oneOf, streamFor } from './randomness.js';
import { playSeason, type Season, type SeasonGame, type SeasonMatch } from './season.js';
import { RIVAL_CLAN, scoutedByRival } from './rival-clan.js';
import type { FieldValues } from './snap.js';

type DemoRecord = Readonly<Record<string, unknown>>;

/** The event of which the organizer has archived a part; its entrants have records of the organizer's own. */
const ARCHIVED_EVENT = elementAt(EVENTS, 0);

/** All files of the demo league by name. Pure: the same text whenever it is called. */
export function demoFiles(): ReadonlyMap<string, string> {
  const season = playSeason();
  const charted = chartedByUs(season.games);
  return new Map([
    ['archive.jsonl', lines(archive(season))],
    ['clan-1-league.jsonl', lines(ourLeague(season))],
    ...EVENTS.map((event): [string, string] => [
      `clan-${event.number + 1}-${event.reference}.jsonl`,
      lines(ourGames(season, event, charted)),
    ]),
    ['rival.jsonl', lines(rivalRecords(season))],
    ['hidden-tendencies.json', document(answerKey(season.games, charted))],
    ['planted-mess.json', document(plantedMess(season, charted))],
  ]);
}

function lines(records: readonly DemoRecord[]): string {
  return records.map((record) => `${JSON.stringify(record)}\n`).join('');
}

function document(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

// ---------- the organizer's archive: a part of event 1 for everyone

function archive({ games, matches }: Season): DemoRecord[] {
  const archived = games.filter(({ reference }) => ARCHIVED_GAMES.includes(reference));
  return [
    ...PLAYERS.filter(({ handle }) => ARCHIVED_EVENT.seeds.includes(handle)).map(({ handle }) => ({
      record: 'player',
      id: playerId(ORGANIZER_CLAN, handle),
      handle,
      aliases: [],
    })),
    eventRecord(ORGANIZER_CLAN, ARCHIVED_EVENT),
    ...entrants(ARCHIVED_EVENT),
    ...matches.filter(({ event }) => event === ARCHIVED_EVENT).map(matchRecord),
    ...archived.flatMap((game) => [
      gameRecord(ORGANIZER_CLAN, game, true),
      ...chartRecords(ORGANIZER_CLAN, game, ARCHIVE_PLAN),
    ]),
  ];
}

// ---------- our clan's own records

function ourLeague({ matches }: Season): DemoRecord[] {
  return [
    ...PLAYERS.map(({ handle, aliases }) => ({
      record: 'player',
      id: playerId(OUR_CLAN, handle),
      handle,
      aliases,
      ...(ARCHIVED_EVENT.seeds.includes(handle) ? { linkedPlayerId: playerId(ORGANIZER_CLAN, handle) } : {}),
    })),
    ...EVENTS.flatMap((event) => [
      eventRecord(OUR_CLAN, event),
      ...entrants(event),
      ...matches.filter((match) => match.event === event).map(matchRecord),
    ]),
    ...MENU.map((call) => ({ record: 'menuCall', ...call })),
  ];
}

function ourGames({ games }: Season, event: LeagueEvent, charted: ReadonlySet<string>): DemoRecord[] {
  const known = games.filter((game) => game.event === event && !UNKNOWN_TO_US.has(game.reference));
  const inTime = [...known].sort((one, other) => Date.parse(one.playedAt) - Date.parse(other.playedAt));
  return inTime.flatMap((game) => {
    const plans = charted.has(game.reference) ? chartPlans(game) : [];
    return [
      gameRecord(OUR_CLAN, game, plans.length > 0),
      ...plans.flatMap((plan) => chartRecords(OUR_CLAN, game, plan)),
      ...(HAS_CALL_LOG.has(game.reference) ? ownCalls(game) : []),
    ];
  });
}

// ---------- another clan's own records

function rivalRecords({ games }: Season): DemoRecord[] {
  const scouted = scoutedByRival(games);
  const handles = new Set(scouted.flatMap(({ home, away }) => [home, away]));
  return [
    ...[...handles].map((handle) => ({
      ...{ record: 'player', id: playerId(RIVAL_CLAN, handle), handle, aliases: [] },
      ...(ARCHIVED_EVENT.seeds.includes(handle) ? { linkedPlayerId: playerId(ORGANIZER_CLAN, handle) } : {}),
    })),
    // Without events and brackets: this clan keeps film, and no book of an event.
    ...scouted.flatMap((game) => [
      { ...gameRecord(RIVAL_CLAN, game, true), event: undefined, match: undefined },
      ...chartRecords(RIVAL_CLAN, game, ARCHIVE_PLAN),
    ]),
  ];
}

function playerId(clan: string, handle: string): string {
  return fixedId(`player ${handle} of ${clan}`, '2026-01-15T18:00:00Z');
}

function contestId(clan: string, { reference, playedAt }: SeasonGame): string {
  return fixedId(`contest ${reference} of ${clan}`, playedAt);
}

function eventRecord(clan: string, event: LeagueEvent): DemoRecord {
  const { reference, name, startsOn, endsOn, rulesVersion, status } = event;
  return {
    record: 'event',
    id: fixedId(`event ${reference} of ${clan}`, `${startsOn}T00:00:00Z`),
    reference,
    name,
    startsOn,
    endsOn,
    rulesVersion,
    status,
    structure: 'single elimination',
  };
}

function entrants(event: LeagueEvent): DemoRecord[] {
  return event.seeds.map((player, index) => {
    const random = streamFor(`roster of ${player} in ${event.reference}`);
    const rosterNotes = chance(random, 0.3) ? { rosterNotes: oneOf(random, ROSTER_NOTES) } : {};
    return { record: 'entrant', event: event.reference, player, seed: index + 1, ...rosterNotes };
  });
}

const ROSTER_NOTES = [
  'two fast outside receivers, thin at tight end',
  'quarterback who runs well',
  'heavy interior line, slow corners',
  'third safety instead of a third corner',
  'paid for the pass rush, not for the secondary',
];

function matchRecord(match: SeasonMatch): DemoRecord {
  const { event, round, position, home, away, winner, bestOf, homeWins, awayWins, status, scheduledAt } = match;
  const wins = status === 'finished' ? { homeWins, awayWins } : {};
  return {
    record: 'match',
    event: event.reference,
    round,
    position,
    home,
    away,
    winner,
    bestOf,
    ...wins,
    status,
    scheduledAt,
  };
}

function gameRecord(clan: string, game: SeasonGame, charted: boolean): DemoRecord {
  const { reference, event, match, gameNumber, home, away, playedAt, importance, quarterMinutes, played } = game;
  const random = streamFor(`settings of ${reference}`);
  const linked = clan === OUR_CLAN && ARCHIVED_GAMES.includes(reference);
  const squads = chance(random, 0.8) ? { homeSquad: squadOf(home, event), awaySquad: squadOf(away, event) } : {};
  return {
    record: 'game',
    id: fixedId(`game ${reference} of ${clan}`, playedAt),
    reference,
    event: event.reference,
    match,
    contestId: contestId(clan, game),
    ...(linked ? { linkedContestId: contestId(ORGANIZER_CLAN, game) } : {}),
    gameNumber,
    home,
    away,
    playedAt,
    importance,
    rulesVersion: event.rulesVersion,
    quarterMinutes,
    settings: {
      fouls: 'on',
      clockRunOffSeconds: 3 * quarterMinutes,
      fatigue: 'on',
      wind: oneOf(random, ['none', 'light', 'light', 'strong']),
    },
    ...squads,
    coinToss: `${played.firstReceiver === 'home' ? home : away} received first`,
    homeScore: played.score.home,
    awayScore: played.score.away,
    ending: played.ending,
    videos: videosOf(game, charted),
  };
}

/** A player keeps to one team for the length of an event. */
function squadOf(handle: string, { reference }: LeagueEvent): string {
  return oneOf(streamFor(`squad of ${handle} in ${reference}`), SQUADS);
}

/** The header of a chart and what was charted, in the order of the game. */
function chartRecords(clan: string, game: SeasonGame, plan: ChartPlan): DemoRecord[] {
  const random = streamFor(`chart ${plan.reference} of ${game.reference} by ${clan}`);
  const again = streamFor(`second look for ${plan.reference} of ${game.reference} by ${clan}`);
  const handles = { home: game.home, away: game.away };
  const header = {
    record: 'chart',
    game: game.reference,
    reference: plan.reference,
    chartedBy: plan.charter.name,
    chartedAt: new Date(Date.parse(game.playedAt) + (plan.reference === 'second' ? 52 : 20) * 3_600_000).toISOString(),
    filmScope: plan.filmScope,
  };
  const plays = asCharted(random, again, game.played.plays, plan).map(({ order, offense, values, note }) => ({
    record: 'play',
    game: game.reference,
    chart: plan.reference,
    order,
    offense: handles[offense],
    ...values,
    ...(note === undefined ? {} : { note }),
  }));
  return [header, ...plays];
}

// ---------- what we meant to call

/** Games of ours with a log of our own calls. */
const HAS_CALL_LOG: ReadonlySet<string> = new Set([
  'thimble-pool-4-game-5',
  'weathervane-scrimmage-3',
  'weathervane-round-1-match-8',
]);

function ownCalls(game: SeasonGame): DemoRecord[] {
  const random = streamFor(`call log of ${game.reference}`);
  const ours = game.home === OUR_PLAYER ? 'home' : 'away';
  if (!isOurs(game)) return [];
  return game.played.plays.flatMap((play, index) => {
    if (play.values.playType !== 'scrimmage' || play.values.concept === undefined) return [];
    const side = play.offense === ours ? 'offense' : 'defense';
    const meant = side === 'offense' ? offenseMeant(play.values) : defenseMeant(play.values);
    // Now and then another button was pressed than the one that was meant.
    const changed = chance(random, 0.06)
      ? side === 'offense'
        ? { concept: 'stick', callFamily: 'quick pass' }
        : { coverage: 'cover 2' }
      : {};
    return [{ record: 'ownCall', game: game.reference, order: index + 1, side, ...meant, ...changed }];
  });
}

function offenseMeant({ callFamily, concept, formation }: FieldValues): DemoRecord {
  return { callFamily, concept, formation };
}

function defenseMeant({ front, coverage, pressure }: FieldValues): DemoRecord {
  return { front, coverage, pressure };
}

// ---------- what is wrong in the data on purpose

function plantedMess({ games }: Season, charted: ReadonlySet<string>): DemoRecord[] {
  return games
    .filter(({ reference }) => charted.has(reference))
    .flatMap((game) =>
      chartPlans(game).flatMap(({ reference: chart, mess }) =>
        mess.map(({ kind, order }) => ({ game: game.reference, chart, order, what: kind })),
      ),
    );
}
