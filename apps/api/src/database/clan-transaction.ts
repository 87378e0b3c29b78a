import { createHash } from 'node:crypto';
import type { Writable } from 'node:stream';
import { Inject, Injectable } from '@nestjs/common';
import { type ClientBase, type Pool, type PoolClient, type QueryConfig, type QueryResultRow } from 'pg';
import { from as copyStream } from 'pg-copy-streams';
import { ApiError } from '../common/problems.js';
import { mayDo, type Right } from '../common/rights.js';
import { cancelWhenGone, type Asker } from './cancel-when-gone.js';
import { errorCode } from './error-code.js';
import { Glances } from './glances.js';
import {
  BEGINNINGS,
  beginningQuery,
  committingQuery,
  gatherMessages,
  setPipeline,
  type PreparedStatement,
} from './one-message.js';

/** Under which Nest hands out the pool of the service's role. Nobody but `ClanTransactions` should ask for it. */
export const SERVICE_POOL = Symbol('service pool');

/** SQLSTATEs that the schema raises itself; see the functions of schema `app`. */
export const SQL_STATES = {
  clanNotEntered: 'RB001',
  keyRefused: 'RB002',
  clanForged: 'RB003',
  notOwn: 'RB004',
  rightMissing: 'RB005',
} as const;

/** What lets a request in: the SHA-256 digest of its key, or of the token of its session. */
export interface ClanCredential {
  readonly keyHash: Buffer;
  /** What the route needs beyond being let in. */
  readonly needs?: Right;
  /** Whoever asked: what still runs for somebody who has left is cancelled. */
  readonly asker?: Asker;
}

/**
 * `read` sees one snapshot throughout and cannot write; `write` sees what was committed before each statement; `glance` is
 * for a work of one reading statement, which goes out with the entering, if it needs one, in one message and has no end.
 */
export type TransactionMode = 'read' | 'write' | 'glance';

/** The database as one clan sees it, for the length of one transaction. */
export interface ClanDatabase {
  readonly clanId: string;
  readonly keyId: string;
  readonly rights: readonly string[];
  /** For what `query` cannot say; never to begin or end a transaction. */
  readonly client: ClientBase;
  /** The caller names the row that the SQL returns; nothing can check it but a test on a real database. */
  query<Row extends QueryResultRow>(sql: string, parameters?: readonly unknown[]): Promise<Row[]>;
  /**
   * The same of a function of the schema that takes the digest of the request's key first and lets in by itself: it needs
   * no clan entered, so that a glance enters none.
   */
  queryByKey<Row extends QueryResultRow>(sql: string, parameters: readonly unknown[]): Promise<Row[]>;
  /** The last statement of all, which COMMIT goes out with: one more would stand in no clan, and is refused. */
  last(sql: string, parameters: readonly unknown[]): Promise<void>;
  /** Takes rows in PostgreSQL's COPY format. Row-level security refuses COPY into a table of ours: use a temporary one. */
  copyFrom(sql: string): Writable;
}

interface Entry {
  readonly clan_id: string;
  readonly key_id: string;
  readonly rights: readonly string[];
}

/** The work of a glance asked for more than its one statement. */
class GlanceExceeded extends Error {}

const DIGEST_BYTES = 32;
/** More keys than are in use at a time. */
const MOST_KNOWN_KEYS = 10_000;

/**
 * Opens a transaction, enters the clan of a key, works, and commits. The only way from a request to the database.
 *
 * On a pool of our own rather than TypeORM's: beginning and entering go out as one message (a round trip less on every
 * request), COPY streams need the bare client, and a broken connection must be thrown away, not handed on.
 */
@Injectable()
export class ClanTransactions {
  /** What keys open, by the digest of the key. */
  private readonly known = new Map<string, Entry>();
  /** When keys and sessions were used since somebody last took note, by digest: milliseconds of the epoch. */
  readonly used = new Map<string, number>();

  private readonly glances: Glances;

  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {
    this.glances = new Glances(pool, () => pool.connect().catch(busy));
  }

  /**
   * @throws ApiError `access.key_refused` when the key is not known, has expired or was revoked, or has not the right
   * @throws ApiError `server.busy` when no connection could be had
   */
  async run<Result>(
    credential: ClanCredential,
    mode: TransactionMode,
    work: (db: ClanDatabase) => Promise<Result>,
  ): Promise<Result> {
    if (mode === 'glance') {
      const known = this.known.get(credential.keyHash.toString('hex'));
      // What a member may do can change, but everyone who has a role reads.
      const may = known !== undefined && missingRight(known, credential, 'read') === null;
      if (may && credential.needs !== 'manage') return this.glance(credential, known, work);
    }
    return this.transact(credential, mode === 'write' ? 'write' : 'read', work);
  }

  /**
   * For work that mostly finds in the process whatever its first statement names, and mostly needs no transaction: a
   * glance, and where the work asks for more than that, the same work from its beginning in a transaction that reads.
   */
  async glanceOrRead<Result>(credential: ClanCredential, work: (db: ClanDatabase) => Promise<Result>): Promise<Result> {
    try {
      return await this.run(credential, 'glance', work);
    } catch (error) {
      if (!(error instanceof GlanceExceeded)) throw error;
      return this.run(credential, 'read', work);
    }
  }

  /** A key that has entered before: see `enterAndWork` for why what it opens may be taken as known. */
  private async glance<Result>(
    credential: ClanCredential,
    entry: Entry,
    work: (db: ClanDatabase) => Promise<Result>,
  ): Promise<Result> {
    const key = credential.keyHash.toString('hex');
    try {
      const db = new GlanceDatabase(this.glances, credential, entry);
      const result = await work(db);
      if (!db.asked) throw new Error('a glance that asks nothing has entered nowhere');
      this.used.set(key, Date.now());
      return result;
    } catch (error) {
      if (errorCode(error) !== SQL_STATES.keyRefused) throw error;
      this.known.delete(key);
      throw refused();
    }
  }

  /**
   * What a link shows, to be read only. It enters no clan, so whatever asks for one fails.
   *
   * @throws the database's RB011 when the link is not known, has expired or was revoked
   */
  async visit<Result>(
    tokenHash: Buffer,
    work: (db: ClanDatabase, reportId: string) => Promise<Result>,
  ): Promise<Result> {
    const client = await this.pool.connect().catch(busy);
    setPipeline(client, false);
    try {
      await client.query(BEGINNINGS.read);
      const { rows } = await client.query<{ clan_id: string; link_id: string; report_id: string }>(
        'select clan_id, link_id, report_id from app.enter_link($1)',
        [tokenHash],
      );
      const [entry] = rows;
      if (entry === undefined) throw new Error('entering the link returned nothing');
      return await work(
        clanDatabase(client, { clan_id: entry.clan_id, key_id: entry.link_id, rights: [] }, null),
        entry.report_id,
      );
    } finally {
      // Nothing was written, so it ends the same way whether it went well or not.
      await giveBack(client, 'rollback');
    }
  }

  private async transact<Result>(
    credential: ClanCredential,
    mode: 'read' | 'write',
    work: (db: ClanDatabase) => Promise<Result>,
  ): Promise<Result> {
    const client = await this.pool.connect().catch(busy);
    const watch = cancelWhenGone(this.pool, client, credential.asker);
    const ending: Ending = { committed: null };
    let result: Result;
    try {
      result = await this.enterAndWork(client, credential, mode, (db, allowed) =>
        work(mode === 'write' ? { ...db, last: committing(client, allowed, ending) } : db),
      );
      if (mode === 'write') await (ending.committed ?? commit(client));
    } catch (error) {
      await watch.end();
      await giveBack(client, 'rollback');
      if (errorCode(error) === SQL_STATES.rightMissing) throw mayNot('manage');
      throw error;
    }
    await watch.end();
    // Nothing hangs on the end of a transaction that only read, so its answer is sent first.
    if (mode === 'read') setImmediate(() => void giveBack(client, 'commit'));
    else client.release();
    return result;
  }

  /**
   * A request whose key has entered before sends its first statements right behind the entering, in one message. A key
   * belongs to one clan for ever, so what it opens is known; whether it still does, and what it may, is for the database
   * to say, which lets no statement through behind an entering that failed.
   */
  private async enterAndWork<Result>(
    client: PoolClient,
    credential: ClanCredential,
    mode: 'read' | 'write',
    work: (db: ClanDatabase, allowed: Promise<void>) => Promise<Result>,
  ): Promise<Result> {
    const key = credential.keyHash.toString('hex');
    const known = this.known.get(key);
    setPipeline(client, true);
    gatherMessages(client);
    const entering = enter(client, credential, mode);
    if (known === undefined || missingRight(known, credential, mode) !== null) {
      const entry = await entering;
      this.remember(key, entry);
      requireRights(entry, credential, mode);
      return work(clanDatabase(client, entry, credential.keyHash), Promise.resolve());
    }
    const allowed = entering.then((entry) => {
      // A member's role may have changed since.
      this.remember(key, entry);
      requireRights(entry, credential, mode);
    });
    const [entered, worked] = await Promise.allSettled([
      allowed,
      work(clanDatabase(client, known, credential.keyHash), allowed),
    ]);
    if (entered.status === 'rejected') {
      this.known.delete(key);
      throw entered.reason;
    }
    if (worked.status === 'rejected') throw worked.reason;
    return worked.value;
  }

  private remember(key: string, entry: Entry): void {
    if (this.known.size >= MOST_KNOWN_KEYS) this.known.clear();
    this.known.set(key, entry);
    this.used.set(key, Date.now());
  }
}

/** What the key or member lacks of what the route and the mode ask for; null when it lacks nothing. */
function missingRight({ rights }: Entry, { needs }: ClanCredential, mode: 'read' | 'write'): Right | null {
  if (needs !== undefined && !mayDo(rights, needs)) return needs;
  return mode === 'write' && !mayDo(rights, 'write') ? 'write' : null;
}

/** @throws ApiError `access.right_missing` */
function requireRights(entry: Entry, credential: ClanCredential, mode: 'read' | 'write'): void {
  const missing = missingRight(entry, credential, mode);
  if (missing !== null) throw mayNot(missing);
}

async function enter(client: PoolClient, { keyHash }: ClanCredential, mode: 'read' | 'write'): Promise<Entry> {
  if (keyHash.length !== DIGEST_BYTES) throw refused();
  try {
    // As a parameter: PostgreSQL shows a role the texts of its own sessions' statements, and this digest opens a clan.
    const { rows } = await beginningQuery<Entry & QueryResultRow>(client, mode, {
      name: 'enter and tell',
      text: 'select clan_id, key_id, rights from app.enter($1)',
      values: [keyHash],
    });
    const [entry] = rows;
    if (entry === undefined) throw new Error('entering the clan returned nothing');
    return entry;
  } catch (error) {
    if (errorCode(error) === SQL_STATES.keyRefused) throw refused();
    throw error;
  }
}

function mayNot(right: string): ApiError {
  return new ApiError('access.right_missing', `this key or member has no right to ${right}`);
}

function busy(cause: unknown): never {
  const told = new ApiError('server.busy', 'no connection to the database could be had');
  told.cause = cause;
  throw told;
}

function refused(): ApiError {
  return new ApiError('access.key_refused', 'the key or session is not known, has expired or was revoked');
}

async function commit(client: PoolClient): Promise<void> {
  const { command } = await client.query('commit');
  // PostgreSQL answers COMMIT of a failed transaction with a plain ROLLBACK and no error: an error that the work
  // swallowed would look like success.
  if (command !== 'COMMIT') throw new Error('the transaction had failed before its end and was rolled back');
}

/** Ends the transaction; a connection that cannot do even that is discarded rather than pooled. */
async function giveBack(client: PoolClient, ending: 'commit' | 'rollback'): Promise<void> {
  try {
    await client.query(ending);
    client.release();
  } catch (error) {
    client.release(error instanceof Error ? error : true);
  }
}

/** The COMMIT that the work has sent itself; null as long as it has sent none. */
interface Ending {
  committed: Promise<void> | null;
}

/** @param allowed - that the key was let in with what the work needs, since afterwards nothing can be taken back */
function committing(client: PoolClient, allowed: Promise<void>, ending: Ending): ClanDatabase['last'] {
  return async (sql, parameters) => {
    await allowed;
    ending.committed = committingQuery(client, prepared(sql, parameters));
    await ending.committed;
  };
}

/** A last statement like any other, where the end of the transaction is for somebody else to send. */
export function lastOf(db: Pick<ClanDatabase, 'query'>): ClanDatabase['last'] {
  return async (sql, parameters) => {
    await db.query(sql, parameters);
  };
}

function clanDatabase(client: PoolClient, entry: Entry, keyHash: Buffer | null): ClanDatabase {
  const query = async <Row extends QueryResultRow>(
    sql: string,
    parameters: readonly unknown[] = [],
  ): Promise<Row[]> => {
    const { rows } = await client.query<Row>(statement(sql, parameters));
    return rows;
  };
  return {
    clanId: entry.clan_id,
    keyId: entry.key_id,
    rights: entry.rights,
    client,
    query,
    queryByKey: (sql, parameters) => {
      if (keyHash === null) throw new Error('a link is no key');
      return query(sql, [keyHash, ...parameters]);
    },
    last: lastOf({ query }),
    copyFrom: (sql) => {
      // A stream of rows goes through no pipeline.
      setPipeline(client, false);
      return client.query(copyStream(sql));
    },
  };
}

/**
 * For one statement that enters by itself; a second one would stand outside of any clan.
 *
 * A class, since an accessor in an object literal gives every object a hidden class of its own, in which V8 holds all
 * that the accessor sees, here the request with its answer, until the next full collection.
 */
class GlanceDatabase implements ClanDatabase {
  readonly clanId: string;
  readonly keyId: string;
  readonly rights: readonly string[];
  asked = false;

  constructor(
    private readonly glances: Glances,
    private readonly credential: ClanCredential,
    entry: Entry,
  ) {
    this.clanId = entry.clan_id;
    this.keyId = entry.key_id;
    this.rights = entry.rights;
  }

  get client(): ClientBase {
    return this.last();
  }

  query<Row extends QueryResultRow>(sql: string, parameters: readonly unknown[] = []): Promise<Row[]> {
    return this.ask(this.credential.keyHash, prepared(sql, parameters));
  }

  queryByKey<Row extends QueryResultRow>(sql: string, parameters: readonly unknown[]): Promise<Row[]> {
    return this.ask(null, prepared(sql, [this.credential.keyHash, ...parameters]));
  }

  last(): never {
    throw new GlanceExceeded('a glance has no connection of its own: read in a transaction instead');
  }

  copyFrom(): never {
    return this.last();
  }

  private async ask<Row extends QueryResultRow>(keyHash: Buffer | null, statement: PreparedStatement): Promise<Row[]> {
    if (this.asked) throw new GlanceExceeded('a glance is one statement: read in a transaction instead');
    this.asked = true;
    const { rows } = await this.glances.ask<Row>({ keyHash, statement, asker: this.credential.asker });
    return rows;
  }
}

/** Without parameters it may be several statements at once, which cannot be prepared. */
function statement(text: string, parameters: readonly unknown[]): QueryConfig {
  return parameters.length === 0 ? { text } : prepared(text, parameters);
}

/**
 * Planning these joins under their policies costs more than running them; their texts are few, since every one stands in
 * a repository.
 */
function prepared(text: string, parameters: readonly unknown[]): PreparedStatement {
  return { name: statementName(text), text, values: [...parameters] };
}

const STATEMENT_NAMES = new Map<string, string>();

/** The same name for the same text in every session; PostgreSQL keeps 63 bytes of one. */
function statementName(sql: string): string {
  const known = STATEMENT_NAMES.get(sql);
  if (known !== undefined) return known;
  const name = createHash('sha256').update(sql).digest('base64url');
  STATEMENT_NAMES.set(sql, name);
  return name;
}
