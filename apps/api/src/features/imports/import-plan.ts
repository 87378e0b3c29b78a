import { createHash } from 'node:crypto';
import { uuidv7 } from 'uuidv7';
import { filmScopeRank, WHOLE_FILM, type FilmScope } from '#domain/charting/film-scope.js';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import { packPlays } from '#domain/charting/packed-plays.js';
import { columnsFromPlays } from '#domain/charting/play-columns.js';
import { playField, type TermKind } from '#domain/charting/play-fields.js';
import { aTermOf } from '#domain/charting/read-cell.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { continuityBreaks, type ContinuityBreak } from '#domain/football/continuity.js';
import type { ProblemList } from './problem-list.js';
import type { PlayReading } from './read-play.js';
import { copyLine, playCells, type PlayOwner, type PlayRow } from './play-rows.js';
import type {
  ChartRecord,
  EntrantRecord,
  EventRecord,
  FilmScopeRecord,
  GameRecord,
  MatchRecord,
  MenuCallRecord,
  OwnCallRecord,
  PlayerRecord,
} from './records.dto.js';

export interface KnownEvent {
  readonly id: string;
  readonly scopeId: number;
}

export interface KnownGame {
  readonly id: string;
  readonly scopeId: number;
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
}

export interface KnownChart {
  readonly id: string;
  readonly revision: number;
  readonly contentHash: string;
}

/** What the clan has already, by the names that a file may call it. */
export interface KnownNames {
  readonly clanId: string;
  readonly privateScopeId: number;
  /** By normalised handle or alias. */
  readonly players: Map<string, string>;
  readonly events: Map<string, KnownEvent>;
  readonly entrants: Map<string, string>;
  readonly matches: Map<string, string>;
  readonly games: Map<string, KnownGame>;
  readonly charts: Map<string, KnownChart>;
  readonly menuCalls: Map<string, string>;
  readonly ownCalls: Set<string>;
}

type Row = Readonly<Record<string, unknown>>;

/** Rows to insert, by table, in the order in which foreign keys allow. */
export interface NewRows {
  readonly player: Row[];
  readonly player_alias: Row[];
  readonly event: Row[];
  readonly entrant: Row[];
  readonly match: Row[];
  readonly contest: Row[];
  readonly game: Row[];
  readonly game_video: Row[];
  readonly menu_call: Row[];
  readonly own_call: Row[];
  readonly chart: Row[];
}

export interface ChartOutcome {
  readonly game: string;
  readonly chart: string;
  readonly chartId: string;
  readonly revision: number;
  readonly plays: number;
  /** False when the very same chart was there before. */
  readonly created: boolean;
}

/** A play that does not follow from the one before, and where it stands. */
export interface PlacedBreak extends ContinuityBreak {
  readonly game: string;
  readonly chart: string;
}

/** Beyond this many a person mends the sheet and looks again; the total still says how many there are. */
const LISTED_BREAKS = 200;

interface ChartDraft {
  readonly row: number;
  readonly gameReference: string;
  readonly reference: string;
  readonly owner: PlayOwner | null;
  readonly home: ReadonlySet<string>;
  readonly away: ReadonlySet<string>;
  readonly filmScope: FilmScope;
  readonly facts: ChartRecord | null;
  readonly plays: PlayRow[];
  lastOrder: number;
}

/**
 * Turns the records of a file into rows to insert, in one pass: each name is resolved against the file so far and the
 * archive, each chart is checked as a whole when its last play has been read. Nothing here touches the database.
 */
export class ImportPlan {
  readonly rows: NewRows = {
    player: [],
    player_alias: [],
    event: [],
    entrant: [],
    match: [],
    contest: [],
    game: [],
    game_video: [],
    menu_call: [],
    own_call: [],
    chart: [],
  };
  readonly packs: {
    readonly chartId: string;
    readonly gameId: string;
    readonly scopeId: number;
    readonly plays: number;
    readonly bytes: Uint8Array;
  }[] = [];
  readonly charts: ChartOutcome[] = [];
  readonly breaks: PlacedBreak[] = [];
  totalBreaks = 0;
  readonly matched: Record<string, number> = {};
  /** A chart that the file holds unchanged, but that was edited here since. */
  readonly changedSince: { readonly row: number; readonly game: string; readonly chart: string }[] = [];

  private readonly names = new Map<string, Set<string>>();
  private readonly declared = new Map<string, { row: number; record: ChartRecord }>();
  private readonly finished = new Set<string>();
  private draft: ChartDraft | null = null;

  constructor(
    private readonly known: KnownNames,
    private readonly vocabulary: Vocabulary,
    private readonly problems: ProblemList,
  ) {
    for (const [name, playerId] of known.players) this.nameOf(playerId).add(name);
  }

  addPlayer(row: number, record: PlayerRecord): void {
    const name = normaliseTerm(record.handle);
    if (name === '') {
      this.problems.add(row, 'handle', record.handle, 'a handle with a letter or a digit');
      return;
    }
    if (this.known.players.has(name)) {
      this.count('player');
      return;
    }
    const id = record.id ?? uuidv7();
    this.register(name, id);
    this.rows.player.push({
      id,
      handle: record.handle.trim(),
      normalised_handle: name,
      linked_player_id: record.linkedPlayerId ?? null,
    });
    for (const alias of record.aliases ?? []) {
      const normalised = normaliseTerm(alias);
      if (this.known.players.has(normalised)) continue;
      this.register(normalised, id);
      this.rows.player_alias.push({ id: uuidv7(), player_id: id, alias: alias.trim(), normalised_alias: normalised });
    }
  }

  addEvent(row: number, record: EventRecord): void {
    if (this.known.events.has(record.reference)) {
      this.count('event');
      return;
    }
    if (record.startsOn !== undefined && record.endsOn !== undefined && record.endsOn < record.startsOn) {
      this.problems.add(row, 'endsOn', record.endsOn, `not before ${record.startsOn}`);
      return;
    }
    const id = record.id ?? uuidv7();
    this.known.events.set(record.reference, { id, scopeId: this.known.privateScopeId });
    this.rows.event.push({
      id,
      reference: record.reference,
      name: record.name,
      starts_on: record.startsOn ?? null,
      ends_on: record.endsOn ?? null,
      rules_version: record.rulesVersion ?? null,
      status: record.status,
      structure: record.structure ?? null,
    });
  }

  addEntrant(row: number, record: EntrantRecord): void {
    const event = this.event(row, record.event);
    const playerId = this.playerId(row, 'player', record.player);
    if (event === null || playerId === null) return;
    const key = `${event.id} ${playerId}`;
    if (this.known.entrants.has(key)) {
      this.count('entrant');
      return;
    }
    const id = uuidv7();
    this.known.entrants.set(key, id);
    this.rows.entrant.push({
      id,
      scope_id: event.scopeId,
      event_id: event.id,
      player_id: playerId,
      seed: record.seed ?? null,
      roster_notes: record.rosterNotes ?? null,
    });
  }

  addMatch(row: number, record: MatchRecord): void {
    const event = this.event(row, record.event);
    if (event === null) return;
    const key = matchKey(event.id, record.round, record.position);
    if (this.known.matches.has(key)) {
      this.count('match');
      return;
    }
    const home = this.entrantId(row, 'home', event.id, record.home);
    const away = this.entrantId(row, 'away', event.id, record.away);
    const winner = this.entrantId(row, 'winner', event.id, record.winner);
    if (winner !== null && winner !== home && winner !== away) {
      this.problems.add(row, 'winner', record.winner, 'one of the two players of the match');
      return;
    }
    const id = uuidv7();
    this.known.matches.set(key, id);
    this.rows.match.push({
      id,
      scope_id: event.scopeId,
      event_id: event.id,
      round: record.round,
      position: record.position,
      home_entrant_id: home,
      away_entrant_id: away,
      winner_entrant_id: winner,
      best_of: record.bestOf ?? 1,
      home_wins: record.homeWins ?? null,
      away_wins: record.awayWins ?? null,
      status: record.status,
      scheduled_at: record.scheduledAt ?? null,
    });
  }

  addGame(row: number, record: GameRecord): void {
    if (this.known.games.has(record.reference)) {
      this.count('game');
      return;
    }
    const event = record.event === null || record.event === undefined ? null : this.event(row, record.event);
    const eventId = event?.id ?? null;
    const matchId = this.matchIdOf(row, eventId, record);
    const homePlayerId = this.playerId(row, 'home', record.home);
    const awayPlayerId = this.playerId(row, 'away', record.away);
    if (homePlayerId === null || awayPlayerId === null) return;
    if (homePlayerId === awayPlayerId) {
      this.problems.add(row, 'away', record.away, 'another player than home');
      return;
    }
    const id = record.id ?? uuidv7();
    const contestId = record.contestId ?? uuidv7();
    const scopeId = event?.scopeId ?? this.known.privateScopeId;
    this.known.games.set(record.reference, { id, scopeId, homePlayerId, awayPlayerId });
    this.rows.contest.push({ id: contestId, scope_id: scopeId, linked_contest_id: record.linkedContestId ?? null });
    this.rows.game.push({
      id,
      scope_id: scopeId,
      contest_id: contestId,
      reference: record.reference,
      event_id: eventId,
      match_id: matchId,
      game_number: record.gameNumber ?? 1,
      round: record.match?.round ?? null,
      home_player_id: homePlayerId,
      away_player_id: awayPlayerId,
      played_at: record.playedAt ?? null,
      importance: record.importance,
      rules_version: record.rulesVersion ?? null,
      quarter_minutes: record.quarterMinutes ?? null,
      settings: record.settings ?? {},
      home_squad: record.homeSquad ?? null,
      away_squad: record.awaySquad ?? null,
      coin_toss: record.coinToss ?? null,
      home_score: record.homeScore ?? null,
      away_score: record.awayScore ?? null,
      ending: record.ending ?? 'completed',
    });
    for (const video of record.videos ?? []) {
      this.rows.game_video.push({
        id: uuidv7(),
        scope_id: scopeId,
        game_id: id,
        kind: video.kind,
        url: video.url,
        offset_seconds: video.offsetSeconds ?? 0,
      });
    }
  }

  /** Says of a chart who made it and what of the film it covers; its plays follow. */
  addChart(row: number, record: ChartRecord): void {
    const key = `${record.game} ${record.reference ?? MAIN_CHART}`;
    for (const field of record.filmScope?.fields ?? []) {
      if (playField(field) === undefined) this.problems.add(row, 'filmScope.fields', field, 'a field of the catalogue');
    }
    if (this.declared.has(key) || this.finished.has(key)) {
      this.problems.add(row, 'reference', record.reference ?? MAIN_CHART, 'each chart once, before its plays');
    }
    this.declared.set(key, { row, record });
  }

  addMenuCall(row: number, record: MenuCallRecord): void {
    const key = `${record.side} ${record.name}`;
    if (this.known.menuCalls.has(key)) {
      this.count('menuCall');
      return;
    }
    const id = uuidv7();
    this.known.menuCalls.set(key, id);
    this.rows.menu_call.push({
      id,
      side: record.side,
      name: record.name,
      personnel: this.termId(
        row,
        'personnel',
        record.side === 'offense' ? 'offensivePersonnel' : 'defensivePersonnel',
        record.personnel,
      ),
      formation: this.termId(row, 'formation', 'formation', record.formation),
      concept: this.termId(row, 'concept', 'concept', record.concept),
      front: this.termId(row, 'front', 'front', record.front),
      coverage: this.termId(row, 'coverage', 'coverage', record.coverage),
      pressure: this.termId(row, 'pressure', 'pressure', record.pressure),
      rehearsed: record.rehearsed ?? false,
      reachable_by_check: record.reachableByCheck ?? false,
    });
  }

  addOwnCall(row: number, record: OwnCallRecord): void {
    const game = this.known.games.get(record.game);
    if (game === undefined) {
      this.problems.add(row, 'game', record.game, GAME_EXPECTED);
      return;
    }
    const key = `${game.id} ${record.order} ${record.side}`;
    if (this.known.ownCalls.has(key)) {
      this.count('ownCall');
      return;
    }
    this.known.ownCalls.add(key);
    const menuCallId =
      record.menuCall === undefined ? null : (this.known.menuCalls.get(`${record.side} ${record.menuCall}`) ?? null);
    if (record.menuCall !== undefined && menuCallId === null) {
      this.problems.add(row, 'menuCall', record.menuCall, 'a call of the installed menu');
    }
    this.rows.own_call.push({
      id: uuidv7(),
      game_id: game.id,
      order_in_game: record.order,
      side: record.side,
      menu_call_id: menuCallId,
      call_family: this.termId(row, 'callFamily', 'callFamily', record.callFamily),
      concept: this.termId(row, 'concept', 'concept', record.concept),
      formation: this.termId(row, 'formation', 'formation', record.formation),
      front: this.termId(row, 'front', 'front', record.front),
      coverage: this.termId(row, 'coverage', 'coverage', record.coverage),
      pressure: this.termId(row, 'pressure', 'pressure', record.pressure),
      note: record.note ?? null,
    });
  }

  /**
   * Adds a play to the chart that its row names.
   *
   * @param game    - reference of a game
   * @param chart   - reference of a chart of that game
   * @param reading - null when the row itself had problems
   * @returns rows of table `play` in COPY format: those of the chart before, once it is complete and new
   */
  addPlay(row: number, game: string, chart: string, reading: PlayReading | null): string {
    let finished = '';
    if (this.draft?.gameReference !== game || this.draft.reference !== chart) {
      finished = this.finishChart();
      this.draft = this.startChart(row, game, chart);
    }
    if (reading !== null) this.addToDraft(this.draft, row, reading);
    return finished;
  }

  /**
   * To be called after the last record.
   *
   * @returns rows of table `play` in COPY format: those of the last chart
   */
  finish(): string {
    const finished = this.finishChart();
    for (const [key, { row, record }] of this.declared) {
      if (!this.finished.has(key)) {
        this.problems.add(
          row,
          'reference',
          record.reference ?? MAIN_CHART,
          'plays after the chart that they belong to',
        );
      }
    }
    return finished;
  }

  private addToDraft(draft: ChartDraft, row: number, reading: PlayReading): void {
    if (reading.order <= draft.lastOrder) {
      this.problems.add(row, 'order', reading.order, `more than ${draft.lastOrder}, the order of the row before`);
    }
    draft.lastOrder = reading.order;
    if (draft.owner === null) return;
    const offense = normaliseTerm(reading.offense);
    const isHome = draft.home.has(offense);
    if (!isHome && !draft.away.has(offense)) {
      this.problems.add(row, 'offense', reading.offense, 'one of the two players of the game');
      return;
    }
    const offenseIsHome = isHome !== reading.offenseIsOther;
    draft.plays.push({
      playNumber: draft.plays.length + 1,
      orderInGame: reading.order,
      offenseIsHome,
      values: reading.values,
      note: reading.note,
      adjustmentDetails: reading.adjustmentDetails,
      knownBy: reading.knownBy,
    });
  }

  private startChart(row: number, gameReference: string, reference: string): ChartDraft {
    const key = `${gameReference} ${reference}`;
    const game = this.known.games.get(gameReference);
    if (game === undefined) this.problems.add(row, 'game', gameReference, GAME_EXPECTED);
    if (this.finished.has(key)) {
      this.problems.add(row, 'chart', reference, 'the rows of one chart to stand together');
    }
    this.finished.add(key);
    const facts = this.declared.get(key)?.record ?? null;
    return {
      row,
      gameReference,
      reference,
      owner:
        game === undefined
          ? null
          : {
              clanId: this.known.clanId,
              chartId: uuidv7(),
              gameId: game.id,
              scopeId: game.scopeId,
              homePlayerId: game.homePlayerId,
              awayPlayerId: game.awayPlayerId,
            },
      home: game === undefined ? new Set() : this.nameOf(game.homePlayerId),
      away: game === undefined ? new Set() : this.nameOf(game.awayPlayerId),
      filmScope: filmScopeOf(facts?.filmScope),
      facts,
      plays: [],
      lastOrder: 0,
    };
  }

  private finishChart(): string {
    const { draft } = this;
    this.draft = null;
    if (draft?.owner == null || this.problems.total > 0) return '';
    const cells = draft.plays.map(playCells);
    const contentHash = hashChart(draft, cells);
    const existing = this.known.charts.get(`${draft.owner.gameId} ${draft.reference}`);
    if (existing !== undefined) {
      this.meetExisting(draft, existing, contentHash);
      return '';
    }
    const { owner } = draft;
    const columns = columnsFromPlays({ chartId: owner.chartId, gameId: owner.gameId }, draft.plays);
    const breaks = continuityBreaks(columns, draft.filmScope, this.vocabulary);
    this.totalBreaks += breaks.length;
    for (const found of breaks.slice(0, LISTED_BREAKS - this.breaks.length)) {
      this.breaks.push({ ...found, game: draft.gameReference, chart: draft.reference });
    }
    this.charts.push({
      game: draft.gameReference,
      chart: draft.reference,
      plays: draft.plays.length,
      chartId: owner.chartId,
      revision: 1,
      created: true,
    });
    this.packs.push({
      chartId: owner.chartId,
      gameId: owner.gameId,
      scopeId: owner.scopeId,
      plays: draft.plays.length,
      bytes: packPlays(columns),
    });
    this.rows.chart.push({
      id: owner.chartId,
      scope_id: owner.scopeId,
      game_id: owner.gameId,
      reference: draft.reference,
      charted_by: draft.facts?.chartedBy ?? null,
      charted_at: draft.facts?.chartedAt ?? null,
      film_scope: draft.filmScope,
      film_scope_rank: filmScopeRank(draft.filmScope),
      plays: draft.plays.length,
      content_hash: `\\x${contentHash}`,
    });
    return draft.plays.map((play, place) => copyLine(owner, play, cells[place] ?? '')).join('');
  }

  private meetExisting(draft: ChartDraft, existing: KnownChart, contentHash: string): void {
    const { row, gameReference: game, reference: chart, plays } = draft;
    if (existing.contentHash !== contentHash) {
      const expected = 'another name for the chart: this game has one of that name, with other plays';
      this.problems.add(row, 'chart', chart, expected);
    } else if (existing.revision > 1) {
      this.changedSince.push({ row, game, chart });
    } else {
      this.count('chart');
      this.charts.push({ game, chart, plays: plays.length, chartId: existing.id, revision: 1, created: false });
    }
  }

  private count(kind: string): void {
    this.matched[kind] = (this.matched[kind] ?? 0) + 1;
  }

  private register(name: string, playerId: string): void {
    this.known.players.set(name, playerId);
    this.nameOf(playerId).add(name);
  }

  private nameOf(playerId: string): Set<string> {
    const names = this.names.get(playerId) ?? new Set();
    this.names.set(playerId, names);
    return names;
  }

  private event(row: number, reference: string): KnownEvent | null {
    const event = this.known.events.get(reference) ?? null;
    if (event === null) {
      this.problems.add(row, 'event', reference, 'an event that stands before it in the file, or in the archive');
    }
    return event;
  }

  private playerId(row: number, field: string, handle: string): string | null {
    const id = this.known.players.get(normaliseTerm(handle)) ?? null;
    if (id === null)
      this.problems.add(row, field, handle, 'a player who stands before it in the file, or in the archive');
    return id;
  }

  private entrantId(row: number, field: string, eventId: string, handle: string | null | undefined): string | null {
    if (handle === null || handle === undefined) return null;
    const playerId = this.playerId(row, field, handle);
    if (playerId === null) return null;
    const id = this.known.entrants.get(`${eventId} ${playerId}`) ?? null;
    if (id === null) this.problems.add(row, field, handle, 'an entrant of the event');
    return id;
  }

  private matchIdOf(row: number, eventId: string | null, { match }: GameRecord): string | null {
    if (match === null || match === undefined) return null;
    const id = this.known.matches.get(matchKey(eventId ?? '', match.round, match.position)) ?? null;
    if (id === null) this.problems.add(row, 'match', match, 'a match of the event, that stands before it');
    return id;
  }

  private termId(row: number, field: string, kind: TermKind, word: string | undefined): number | null {
    if (word === undefined) return null;
    const found = this.vocabulary.find(kind, word);
    if (found.status === 'found') return found.term.id;
    const expected = found.status === 'ask' ? found.question : () => aTermOf(kind, found.suggestions);
    this.problems.add(row, field, word, expected);
    return null;
  }
}

export const MAIN_CHART = 'main';
const GAME_EXPECTED = 'a game that stands before it in the file, or in the archive';

export function matchKey(eventId: string, round: number, position: number): string {
  return `${eventId} ${round} ${position}`;
}

function filmScopeOf(record: FilmScopeRecord | undefined): FilmScope {
  return {
    offense: record?.offense ?? WHOLE_FILM.offense,
    downs: record?.downs ?? WHOLE_FILM.downs,
    quarters: record?.quarters ?? WHOLE_FILM.quarters,
    fields: record?.fields ?? WHOLE_FILM.fields,
  };
}

/** The same plays give the same hash, whatever words, column order or format the file wrote them in. */
function hashChart({ filmScope, plays }: ChartDraft, cells: readonly string[]): string {
  const hash = createHash('sha256').update(JSON.stringify(filmScope));
  plays.forEach(({ offenseIsHome }, place) =>
    hash.update(`\n${offenseIsHome ? 'home' : 'away'}\t${cells[place] ?? ''}`),
  );
  return hash.digest('hex');
}
