import { createHash, randomBytes } from 'node:crypto';
import type { ClientBase, Pool } from 'pg';
import { uuidv7 } from 'uuidv7';
import { normaliseTerm } from '#domain/charting/normalise-term.js';

/**
 * Rows for tests: each factory fills in what a test ignores and writes as the owner of the tables, past every policy.
 * Whatever a test gives replaces the column of that name.
 */

export interface TestClan {
  readonly id: string;
  readonly name: string;
  readonly privateScopeId: number;
  readonly keyId: string;
  /** As it goes into the Authorization header. */
  readonly key: string;
  readonly credential: { readonly keyHash: Buffer };
}

/** Whatever takes SQL: a pool, or one connection. */
export type Writer = Pick<ClientBase, 'query'> | Pool;

export type Row = Readonly<Record<string, unknown>>;

let counter = 0;

/** A name that no other factory of this test file made. */
function next(word: string): string {
  counter += 1;
  return `${word}-${counter}`;
}

export async function aClan(
  owner: Pool,
  { name = next('clan'), rights = ['read', 'write', 'manage'] } = {},
): Promise<TestClan> {
  const id = uuidv7();
  const { rows } = await owner.query<{ scope: number }>('select app.create_clan($1, $2) as scope', [id, name]);
  const { keyId, key, credential } = await aKey(owner, id, { rights });
  return { id, name, privateScopeId: rows[0]?.scope ?? 0, keyId, key, credential };
}

export async function aKey(
  owner: Pool,
  clanId: string,
  row: Row = {},
): Promise<Pick<TestClan, 'keyId' | 'key' | 'credential'>> {
  const keyId = uuidv7();
  const key = `rbk_${randomBytes(32).toString('base64url')}`;
  const keyHash = createHash('sha256').update(key).digest();
  await insert(owner, 'api_key', {
    clan_id: clanId,
    id: keyId,
    name: next('key'),
    prefix: key.slice(0, 8),
    key_hash: keyHash,
    rights: ['read', 'write', 'manage'],
    ...row,
  });
  return { keyId, key, credential: { keyHash } };
}

export interface TestMember {
  readonly personId: string;
  readonly memberId: string;
  /** Token of a session in the clan. */
  readonly session: string;
}

/** A member of the clan with a session: somebody new, or the person of that name. */
export async function aMember(
  owner: Pool,
  clanId: string,
  role: 'owner' | 'analyst' | 'reader',
  { signInName, name = next('member') }: { readonly signInName?: string; readonly name?: string } = {},
): Promise<TestMember> {
  const memberId = uuidv7();
  const { rows } = await owner.query<{ id: string }>('select id from app.person where sign_in_name = $1', [signInName]);
  const personId = rows[0]?.id ?? uuidv7();
  if (rows.length === 0) await insert(owner, 'app.person', { id: personId });
  await owner.query('select app.make_member($1, $2, $3, $4, $5)', [clanId, memberId, personId, name, role]);
  const session = `rbs_${randomBytes(32).toString('base64url')}`;
  await insert(owner, 'app.person_session', {
    ...{ id: uuidv7(), person_id: personId, clan_id: clanId, member_id: memberId },
    ...{ token_hash: createHash('sha256').update(session).digest(), expires_at: '2999-01-01T00:00:00Z' },
  });
  return { personId, memberId, session };
}

export async function aScope(owner: Pool, clan: TestClan, kind: 'share' | 'person' = 'share'): Promise<number> {
  const { rows } = await owner.query<{ id: number }>('insert into scope (clan_id, kind) values ($1, $2) returning id', [
    clan.id,
    kind,
  ]);
  return rows[0]?.id ?? 0;
}

export async function aPlayer(
  owner: Pool,
  clan: TestClan,
  row: Row & { readonly handle?: string } = {},
): Promise<string> {
  const handle = row.handle ?? next('Player');
  return insertOwn(owner, 'player', clan, { handle, normalised_handle: normaliseTerm(handle), ...row });
}

export function anEvent(owner: Pool, clan: TestClan, row: Row = {}): Promise<string> {
  const reference = next('event');
  return insertOwn(owner, 'event', clan, { reference, name: `The ${reference}`, ...row });
}

export interface TestGame {
  readonly id: string;
  readonly contestId: string;
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
  readonly scopeId: number;
}

export interface GameParts {
  readonly homePlayerId?: string;
  readonly awayPlayerId?: string;
  readonly scopeId?: number;
  readonly row?: Row;
}

export async function aGame(owner: Pool, clan: TestClan, parts: GameParts = {}): Promise<TestGame> {
  const scopeId = parts.scopeId ?? clan.privateScopeId;
  const homePlayerId = parts.homePlayerId ?? (await aPlayer(owner, clan));
  const awayPlayerId = parts.awayPlayerId ?? (await aPlayer(owner, clan));
  const contestId = await insertOwn(owner, 'contest', clan, { scope_id: scopeId });
  const id = await insertOwn(owner, 'game', clan, {
    scope_id: scopeId,
    contest_id: contestId,
    reference: next('game'),
    home_player_id: homePlayerId,
    away_player_id: awayPlayerId,
    importance: 'group',
    ...parts.row,
  });
  return { id, contestId, homePlayerId, awayPlayerId, scopeId };
}

export interface TestChart {
  readonly id: string;
  readonly game: TestGame;
}

export async function aChart(
  owner: Pool,
  clan: TestClan,
  { game, row }: { game?: TestGame; row?: Row } = {},
): Promise<TestChart> {
  const of = game ?? (await aGame(owner, clan));
  const id = await insertOwn(owner, 'chart', clan, {
    scope_id: of.scopeId,
    game_id: of.id,
    reference: next('chart'),
    ...row,
  });
  return { id, game: of };
}

/** A play of the home player's offense; returns its number in the chart. */
export async function aPlay(
  owner: Pool,
  clan: TestClan,
  { chart, row }: { chart?: TestChart; row?: Row } = {},
): Promise<number> {
  const of = chart ?? (await aChart(owner, clan));
  const { rows } = await owner.query<{ next: number }>(
    'select coalesce(max(play_number), 0) + 1 as next from play where clan_id = $1 and chart_id = $2',
    [clan.id, of.id],
  );
  const number = rows[0]?.next ?? 1;
  await insert(owner, 'play', {
    clan_id: clan.id,
    chart_id: of.id,
    game_id: of.game.id,
    scope_id: of.game.scopeId,
    play_number: number,
    order_in_game: number,
    offense_player_id: of.game.homePlayerId,
    defense_player_id: of.game.awayPlayerId,
    play_type: 'scrimmage',
    ...row,
  });
  return number;
}

async function insertOwn(owner: Pool, table: string, clan: TestClan, row: Row): Promise<string> {
  const id = typeof row['id'] === 'string' ? row['id'] : uuidv7();
  await insert(owner, table, { clan_id: clan.id, scope_id: clan.privateScopeId, ...row, id });
  return id;
}

/** Into any table; columns that are undefined are left out. */
export async function insert(writer: Writer, table: string, row: Row): Promise<void> {
  const entries = Object.entries(row).filter(([, value]) => value !== undefined);
  const columns = entries.map(([column]) => column).join(', ');
  const places = entries.map((_, index) => `$${index + 1}`).join(', ');
  await writer.query(
    `insert into ${table} (${columns}) values (${places})`,
    entries.map(([, value]) => value),
  );
}
