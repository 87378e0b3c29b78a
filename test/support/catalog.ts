import type { Pool } from 'pg';

export interface CatalogTable {
  readonly name: string;
  /** What the service may do to it at all, on some columns at least. */
  readonly rights: readonly string[];
  /** Columns that the service may read. */
  readonly readable: readonly string[];
  /** Columns that the service may give a value to. */
  readonly insertable: readonly string[];
  readonly hasClan: boolean;
  readonly hasScope: boolean;
  readonly secured: boolean;
  readonly forced: boolean;
  /** Commands for which the service has a policy. */
  readonly policies: readonly string[];
}

/** Every table that exists, so that a new one is tested without anybody thinking of it. */
export async function catalogTables(owner: Pool): Promise<CatalogTable[]> {
  const { rows } = await owner.query<CatalogTable>(`
    select c.relname as name, c.relrowsecurity as secured, c.relforcerowsecurity as forced,
           array(select lower(r) from unnest(array['SELECT', 'INSERT', 'UPDATE', 'DELETE']) r
                  where case r when 'DELETE' then has_table_privilege('roundbook_service', c.oid, r)
                                             else has_any_column_privilege('roundbook_service', c.oid, r) end) as rights,
           array(select a.attname::text from pg_attribute a where a.attrelid = c.oid and a.attnum > 0
                    and not a.attisdropped
                    and has_column_privilege('roundbook_service', c.oid, a.attnum, 'SELECT') order by a.attnum) as readable,
           array(select a.attname::text from pg_attribute a where a.attrelid = c.oid and a.attnum > 0
                    and not a.attisdropped and a.attidentity = ''
                    and has_column_privilege('roundbook_service', c.oid, a.attnum, 'INSERT') order by a.attnum) as insertable,
           exists(select from pg_attribute a where a.attrelid = c.oid and a.attname = 'clan_id') as "hasClan",
           exists(select from pg_attribute a where a.attrelid = c.oid and a.attname = 'scope_id') as "hasScope",
           array(select distinct lower(p.cmd) from pg_policies p where p.schemaname = n.nspname
                    and p.tablename = c.relname and 'roundbook_service' = any (p.roles) order by 1) as policies
      from pg_class c join pg_namespace n on n.oid = c.relnamespace
     where c.relkind in ('r', 'p', 'v', 'm', 'f') and n.nspname not in ('pg_catalog', 'information_schema')
       and n.nspname not like 'pg_t%'
     order by c.relname`);
  return rows;
}

export interface CatalogReference {
  readonly table: string;
  readonly constraint: string;
  /** The column beside clan, scope and what others of the constraint's columns repeat. */
  readonly column: string;
  readonly target: string;
  /** Whether the service may point it elsewhere. */
  readonly writable: boolean;
}

/** Every foreign key between rows of a clan, by the one column that says which row is meant. */
export async function catalogReferences(owner: Pool): Promise<CatalogReference[]> {
  const { rows } = await owner.query<CatalogReference>(`
    select r.*, has_column_privilege('roundbook_service', r.table, r.column, 'update') as writable from (
    select c.conrelid::regclass::text as table, c.conname as constraint, f.relname as target,
           (select a.attname from unnest(c.conkey, c.confkey) k (own, other)
              join pg_attribute a on a.attrelid = c.conrelid and a.attnum = k.own
              join pg_attribute o on o.attrelid = c.confrelid and o.attnum = k.other
             where o.attname = 'id') as column
      from pg_constraint c join pg_class f on f.oid = c.confrelid
     where c.contype = 'f' and f.relname not in ('clan', 'scope', 'term') and 'clan_id' in (
       select a.attname from unnest(c.conkey) k join pg_attribute a on a.attrelid = c.conrelid and a.attnum = k)
     ) r order by 1, 2`);
  return rows;
}
