import type { OpenAPIObject } from '@nestjs/swagger';
import { mayDo, RIGHTS, RIGHTS_OF_ROLE, ROLES, type Right } from '../common/rights.js';
import { RIGHT_EXTENSION } from '../features/access/needs.js';
import type { Operation } from './document-types.js';

const INTRODUCTION = `# Who may do what

<!-- Printed from the API's description by \`npm run docs:roles\`; a test compares. Do not edit. -->

A person is a member of a clan with one **role**, and may be in several clans; a session is in one of them at a time. A
program has a **key** with one or more **scopes**. Both come down to the same rights: \`profiles\` reads what is computed of
players, \`read\` reads the archive itself (and so what is computed of it), \`write\` charts and keeps the clan's records,
\`manage\` does everything. Nobody makes a key that may do more than he may, and a key ends when whoever made it leaves.

Beside the roles stands what is for one person alone: own calls, coaching points and reports with \`visibleTo: "me"\` are
read by that person and by keys that this person made \`personal\`, by no owner and no other key.

An owner hands the clan over, gives roles, invites, removes; a clan is never without an owner. Who leaves or is removed
takes along sessions, keys and what nobody else could read; what was written for the clan stays, signed. Signing up, signing
in and accepting an invitation is open to everybody; sessions, passphrase and memberships are for the person, whatever the
role, and never for a key.

| right | ${ROLES.join(' | ')} | scopes of a key |
|---|---|---|---|---|
${RIGHTS.map(rightRow).join('')}
`;

const METHODS = ['get', 'post', 'put', 'patch', 'delete'] as const;

/** The reference of roles and scopes, as Markdown: for each operation the right that it needs and who has it. */
export function rolesPage(document: OpenAPIObject): string {
  const rows = Object.entries(document.paths).flatMap(([path, item]) =>
    METHODS.flatMap((method) => {
      const operation = item[method];
      return operation === undefined
        ? []
        : [{ tag: operation.tags?.[0] ?? '', row: operationRow(method, path, operation) }];
    }),
  );
  const tags = [...new Set(rows.map(({ tag }) => tag))].sort();
  return (
    INTRODUCTION +
    tags
      .map((tag) =>
        section(
          tag,
          rows.filter((row) => row.tag === tag).map(({ row }) => row),
        ),
      )
      .join('')
  );
}

function section(tag: string, rows: readonly string[]): string {
  return `\n## ${tag}\n\n| operation | what it does | ${ROLES.join(' | ')} | scopes of a key |\n|---|---|---|---|---|---|\n${[...rows].sort().join('')}`;
}

function operationRow(method: string, path: string, operation: Operation): string {
  const told = operation as Operation & Partial<Record<typeof RIGHT_EXTENSION, Right>>;
  const name = `\`${method.toUpperCase()} ${path}\` | ${operation.summary ?? ''}`;
  const right = told[RIGHT_EXTENSION];
  if (right !== undefined) return `| ${name} | ${roleCells(right)} | ${scopesFor(right)} |\n`;
  const keys = (operation.security ?? []).length === 0 ? 'everybody, without a key too' : 'none';
  return `| ${name} | yes | yes | yes | ${keys} |\n`;
}

function rightRow(right: Right): string {
  return `| \`${right}\` | ${roleCells(right)} | ${scopesFor(right)} |\n`;
}

function roleCells(right: Right): string {
  return ROLES.map((role) => (mayDo(RIGHTS_OF_ROLE[role], right) ? 'yes' : 'no')).join(' | ');
}

function scopesFor(right: Right): string {
  return RIGHTS.filter((scope) => mayDo([scope], right))
    .map((scope) => `\`${scope}\``)
    .join(', ');
}
