import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { createClan } from '../database/create-clan.js';
import type { OpenDatabase } from '../database/open-database.js';
import type { EntrantPage } from '../features/events/entrants.dto.js';
import type { EventPage } from '../features/events/events.dto.js';
import type { MatchPage } from '../features/events/matches.dto.js';
import type { ImportResponse } from '../features/imports/imports.dto.js';
import type { PlayerPage } from '../features/players/players.dto.js';
import type { MakeRoundReport } from '../features/round-reports/round-reports.dto.js';
import { CommandError } from './run-command.js';

/** What a start of the demo leaves for the next one, saved as soon as it is known, so that a crash can be recovered from. */
interface DemoState {
  /** Digest of the data files; others load into a folder of their own. */
  readonly data: string;
  readonly ourKey: string;
  readonly archiveKey: string;
  readonly rivalKey: string;
  /** Null until everything was loaded. */
  readonly reportId: string | null;
  /** The report of a finished round, as it stood before it; null where the player has none, or nobody asked yet. */
  readonly judgedReportId: string | null;
}

/** Where it is saved, in the database's folder. */
export const DEMO_STATE = 'demo.json';

const NO_REPORTS = { reportId: null, judgedReportId: null };

export interface ReadyDemo {
  readonly key: string;
  /** Of another clan, which scouts some of the same players for itself. */
  readonly rivalKey: string;
  readonly reportId: string;
}

interface DataFile {
  readonly name: string;
  readonly bytes: Buffer;
}

/** Loads the demo league the way any client would, over HTTP, and asks for the report on the player's next opponent. */
export class DemoLeague {
  private readonly statePath: string;

  constructor(
    private readonly url: string,
    private readonly database: OpenDatabase,
    private readonly folder: string,
    private readonly player: string,
    private readonly progress: (line: string) => void,
  ) {
    this.statePath = join(database.folder, DEMO_STATE);
  }

  async ready(): Promise<ReadyDemo> {
    const files = await this.readFiles();
    const data = files.reduce((hash, { bytes }) => hash.update(bytes), createHash('sha256')).digest('hex');
    const state = (await this.readState()) ?? (await this.makeClans(data));
    if (state.data !== data) {
      throw new CommandError(
        `${this.database.folder} holds another version of the demo league; remove it to load this one`,
      );
    }
    const { ourKey: key, rivalKey } = state;
    if (state.reportId !== null) return { key, rivalKey, reportId: state.reportId };
    // The archive first: the clan's own records name the public ones that they are the same as. A file that an earlier,
    // interrupted start had loaded changes nothing.
    await this.load(
      state.archiveKey,
      files.filter(({ name }) => name.startsWith('archive')),
    );
    await this.publishEvents(state.archiveKey);
    await this.load(
      state.ourKey,
      files.filter(({ name }) => name.startsWith('clan')),
    );
    await this.load(
      state.rivalKey,
      files.filter(({ name }) => name.startsWith('rival')),
    );
    this.progress('computing the report on the next opponent');
    const reportId = await this.makeReport(key);
    await this.writeState({ ...state, reportId });
    return { key, rivalKey, reportId };
  }

  /** The report whose card can be read: on the last opponent, as things stood before that match. */
  async judgedReport(): Promise<string | null> {
    const state = await this.readState();
    if (state === null) return null;
    if (state.judgedReportId !== null) return state.judgedReportId;
    this.progress('computing the report on the last opponent, as things stood before that match');
    const judgedReportId = await this.makeJudgedReport(state.ourKey);
    await this.writeState({ ...state, judgedReportId });
    return judgedReportId;
  }

  async report(key: string, reportId: string): Promise<string> {
    const response = await this.call(key, 'GET', `/v1/round-reports/${reportId}`, {
      headers: { Accept: 'text/plain' },
    });
    return response.text();
  }

  private async readFiles(): Promise<DataFile[]> {
    const names = (await readdir(this.folder)).filter((name) => name.endsWith('.jsonl')).sort();
    return Promise.all(names.map(async (name) => ({ name, bytes: await readFile(join(this.folder, name)) })));
  }

  private async readState(): Promise<DemoState | null> {
    try {
      // Written by this very class, into a folder that nobody else writes to; perhaps before there were report cards.
      return { ...NO_REPORTS, ...(JSON.parse(await readFile(this.statePath, 'utf8')) as DemoState) };
    } catch {
      return null;
    }
  }

  private writeState(state: DemoState): Promise<void> {
    return writeFile(this.statePath, JSON.stringify(state, null, 2), { mode: 0o600 });
  }

  private async makeClans(data: string): Promise<DemoState> {
    const archive = await createClan(this.database.ownerUrl, 'Kettle Cup Archive');
    const ours = await createClan(this.database.ownerUrl, 'Night Shift Almanac');
    const rival = await createClan(this.database.ownerUrl, 'Slate Harbour Notebook');
    const state = { data, ourKey: ours.key, archiveKey: archive.key, rivalKey: rival.key, ...NO_REPORTS };
    await this.writeState(state);
    return state;
  }

  private async load(key: string, files: readonly DataFile[]): Promise<void> {
    for (const [place, { name, bytes }] of files.entries()) {
      const headers = { 'Content-Type': 'application/x-ndjson' };
      const response = await this.call(key, 'POST', '/v1/imports', { headers, body: bytes });
      const { created, totalContinuityBreaks } = (await response.json()) as ImportResponse;
      const flagged = totalContinuityBreaks > 0 ? `, ${totalContinuityBreaks} breaks of continuity flagged` : '';
      this.progress(`loaded ${name} (${place + 1} of ${files.length}): ${created['play'] ?? 0} plays${flagged}`);
    }
  }

  private async publishEvents(key: string): Promise<void> {
    for (const { id } of await this.events(key)) {
      const address = `/v1/events/${id}/visibility`;
      const { headers } = await this.call(key, 'GET', address);
      await this.call(key, 'PUT', address, {
        headers: { 'Content-Type': 'application/json', 'If-Match': headers.get('ETag') ?? '' },
        body: JSON.stringify({ visibility: 'public' }),
      });
    }
  }

  private async makeReport(key: string): Promise<string> {
    const { eventId, playerId } = await this.entered(key);
    return this.reported(key, { eventId, playerId });
  }

  /** The last match that the player has finished in the event, as it was to be prepared for on the day before it. */
  private async makeJudgedReport(key: string): Promise<string | null> {
    const { eventId, playerId } = await this.entered(key);
    const matches = await this.call(key, 'GET', `/v1/events/${eventId}/matches?limit=200`);
    const { items } = (await matches.json()) as MatchPage;
    const entrants = await this.call(key, 'GET', `/v1/events/${eventId}/entrants?limit=200`);
    const playerOf = new Map(
      ((await entrants.json()) as EntrantPage).items.map((entrant) => [entrant.id, entrant.playerId]),
    );
    const [last] = items
      .filter(({ status }) => status === 'finished')
      .map(({ round, scheduledAt, homeEntrantId, awayEntrantId }) => ({
        round,
        scheduledAt,
        players: [homeEntrantId, awayEntrantId].map((id) => playerOf.get(id ?? '')),
      }))
      .filter(({ players }) => players.includes(playerId))
      .sort((one, other) => other.round - one.round);
    const opponentId = last?.players.find((id) => id !== playerId);
    if (last?.scheduledAt == null || opponentId === undefined) return null;
    return this.reported(key, { eventId, playerId, opponentId, asOf: last.scheduledAt.slice(0, 10) });
  }

  private async entered(key: string): Promise<{ readonly eventId: string; readonly playerId: string }> {
    const running = (await this.events(key)).find(({ status }) => status === 'running');
    const players = await this.call(key, 'GET', '/v1/players?limit=200');
    const { items } = (await players.json()) as PlayerPage;
    const player = items.find(({ handle }) => handle === this.player);
    if (running === undefined || player === undefined) {
      throw new CommandError(`the data has no running event, or no player ${this.player}`);
    }
    return { eventId: running.id, playerId: player.id };
  }

  private async reported(key: string, wanted: MakeRoundReport): Promise<string> {
    const response = await this.call(key, 'POST', '/v1/round-reports', {
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(wanted),
    });
    const { id } = (await response.json()) as { id: string };
    return id;
  }

  private async events(key: string): Promise<EventPage['items']> {
    const response = await this.call(key, 'GET', '/v1/events?limit=200');
    const { items } = (await response.json()) as EventPage;
    return items;
  }

  private async call(
    key: string,
    method: string,
    path: string,
    init: Pick<RequestInit, 'body'> & { headers?: Readonly<Record<string, string>> } = {},
  ): Promise<Response> {
    const headers = { Authorization: `Bearer ${key}`, ...init.headers };
    const response = await fetch(`${this.url}${path}`, { ...init, method, headers });
    if (!response.ok) throw new Error(`${method} ${path} answered ${response.status}: ${await response.text()}`);
    return response;
  }
}
