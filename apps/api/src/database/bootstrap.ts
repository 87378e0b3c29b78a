import { escapeIdentifier, escapeLiteral, type ClientBase } from 'pg';
import { connected } from './connected.js';

/** Owns database, schema and tables; no superuser, so that row-level security binds it too. */
export const OWNER_ROLE = 'roundbook_owner';
/** Requests run as this one; it has no right beyond what the migrations grant. */
export const SERVICE_ROLE = 'roundbook_service';

export interface Passwords {
  readonly owner: string;
  readonly service: string;
}

export interface DatabaseUrls {
  readonly ownerUrl: string;
  readonly serviceUrl: string;
}

/** Two bootstraps of one cluster would both find a role missing and both create it. Any fixed number does. */
const BOOTSTRAP_LOCK = 730_401;
/** Since version 17 PostgreSQL brings an order of text that does not depend on the operating system. */
const BUILTIN_LOCALES = 170_000;

/**
 * Creates the two roles and the database, or brings them to what they should be. Safe to repeat. Roles belong to the
 * whole cluster and need an administrator, which is why no migration creates them.
 *
 * @param adminUrl - connection of a superuser, or of a role that may create roles and databases
 */
export async function bootstrap(adminUrl: string, database: string, passwords: Passwords): Promise<DatabaseUrls> {
  await connected(adminUrl, async (admin) => {
    await admin.query('select pg_advisory_lock($1)', [BOOTSTRAP_LOCK]);
    await ensureRole(admin, OWNER_ROLE, passwords.owner);
    await ensureRole(admin, SERVICE_ROLE, passwords.service);
    const { rowCount } = await admin.query('select from pg_database where datname = $1', [database]);
    if (rowCount === 0) await createDatabase(admin, database);
    await secureDatabase(admin, database);
  });
  return urlsFor(adminUrl, database, passwords);
}

/** How the two roles reach the database on the administrator's server. */
export function urlsFor(adminUrl: string, database: string, passwords: Passwords): DatabaseUrls {
  return {
    ownerUrl: urlFor(adminUrl, database, OWNER_ROLE, passwords.owner),
    serviceUrl: urlFor(adminUrl, database, SERVICE_ROLE, passwords.service),
  };
}

async function createDatabase(admin: ClientBase, database: string): Promise<void> {
  const { rows } = await admin.query<{ version: number }>(
    `select current_setting('server_version_num')::integer as version`,
  );
  // The same order of text on every machine, where the server knows how.
  const sameOrder = `template template0 encoding 'UTF8' locale_provider builtin builtin_locale 'C.UTF-8' locale 'C'`;
  const options = (rows[0]?.version ?? 0) >= BUILTIN_LOCALES ? sameOrder : '';
  await admin.query(`create database ${escapeIdentifier(database)} owner ${OWNER_ROLE} ${options}`);
}

/** Rights on the database itself, which a clone of it does not inherit. */
export async function secureDatabase(admin: ClientBase, database: string): Promise<void> {
  const name = escapeIdentifier(database);
  await admin.query(`
    alter database ${name} owner to ${OWNER_ROLE};
    revoke all on database ${name} from public;
    -- Temporary tables carry imports past row-level security's refusal of COPY.
    grant connect, temporary on database ${name} to ${SERVICE_ROLE};`);
}

/** The same server, another database and role. */
export function urlFor(url: string, database: string, role?: string, password?: string): string {
  const changed = new URL(url);
  changed.pathname = `/${encodeURIComponent(database)}`;
  if (role !== undefined) changed.username = encodeURIComponent(role);
  if (password !== undefined) changed.password = encodeURIComponent(password);
  return changed.href;
}

interface RoleRow {
  readonly rolsuper: boolean;
  readonly rolbypassrls: boolean;
}

async function ensureRole(admin: ClientBase, role: string, password: string): Promise<void> {
  const { rows } = await admin.query<RoleRow>('select rolsuper, rolbypassrls from pg_roles where rolname = $1', [role]);
  const [found] = rows;
  if (found?.rolsuper === true || found?.rolbypassrls === true) {
    throw new Error(
      `The role ${role} exists and passes over row-level security. Take SUPERUSER and BYPASSRLS from it.`,
    );
  }
  // The attributes that only a superuser may name are left at their defaults, so that a mere CREATEROLE can do this.
  await admin.query(
    `${found === undefined ? 'create' : 'alter'} role ${role} login inherit password ${escapeLiteral(password)}`,
  );
  if (role === OWNER_ROLE) {
    // A superuser needs no membership; anybody else must be able to act as the owner to give the database to it.
    await admin.query(`
      do $body$ begin
        if not (select rolsuper from pg_roles where rolname = current_user) then
          execute format('grant ${role} to %I with inherit true, set true', current_user);
        end if;
      end $body$`);
  }
}
