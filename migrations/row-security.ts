/**
 * Row-level security in the two shapes that tables have here. Written once, since a policy that differs by a slip between
 * twenty tables is a leak. A migration that needs other rules writes them out; nobody edits these once they are merged.
 *
 * Every table: forced (the owner is bound too, but by a policy that lets it do anything: without one an owner's
 * back-fill would silently change no row), and one policy a command for the service.
 */

export type ServiceRight = 'select' | 'insert' | 'update' | 'delete';

const ALL: readonly ServiceRight[] = ['select', 'insert', 'update', 'delete'];

/** Rows with `scope_id`: readable where the scope is, changed by the clan that owns row and scope. */
export function protectScoped(table: string, rights: readonly ServiceRight[] = ALL): string {
  return protect(table, rights, {
    read: 'scope_id = any ((select app.scopes())::integer[])',
    own: 'clan_id = (select app.clan()) and scope_id = any ((select app.own_scopes())::integer[])',
  });
}

/** Rows without a scope: the clan's alone. */
export function protectOwn(table: string, rights: readonly ServiceRight[] = ALL): string {
  return protect(table, rights, { read: 'clan_id = (select app.clan())', own: 'clan_id = (select app.clan())' });
}

interface Conditions {
  /** Which rows the entered clan reads. */
  readonly read: string;
  /** Which rows it writes; the same for the row before and after. */
  readonly own: string;
}

export function protect(table: string, rights: readonly ServiceRight[], { read, own }: Conditions): string {
  const clauses: Record<ServiceRight, string> = {
    select: `using (${read})`,
    insert: `with check (${own})`,
    update: `using (${own}) with check (${own})`,
    delete: `using (${own})`,
  };
  const policies = rights.map(
    (right) => `create policy ${table}_${right} on ${table} for ${right} to roundbook_service ${clauses[right]};`,
  );
  return `
    alter table ${table} enable row level security;
    alter table ${table} force row level security;
    create policy ${table}_owner on ${table} to roundbook_owner using (true) with check (true);
    ${policies.join('\n    ')}
    grant ${rights.join(', ')} on ${table} to roundbook_service;`;
}
