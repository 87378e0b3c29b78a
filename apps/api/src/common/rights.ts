/**
 * What a key or a member may do. `profiles`: what is computed of players (profiles, tells, reports); `read`: the archive
 * itself, play by play; `write`: chart games and keep the clan's records; `manage`: members, keys, publishing.
 */
export const RIGHTS = ['profiles', 'read', 'write', 'manage'] as const;
export type Right = (typeof RIGHTS)[number];

/** Which rights are enough for what needs one. Who reads every play could compute every profile from them. */
const ENOUGH_FOR: Readonly<Record<Right, readonly Right[]>> = {
  profiles: ['profiles', 'read', 'manage'],
  read: ['read', 'manage'],
  write: ['write', 'manage'],
  manage: ['manage'],
};

/** What a member of a clan is; the database keeps the rights of each beside it and refuses any others. */
export const ROLES = ['owner', 'analyst', 'reader'] as const;
export type Role = (typeof ROLES)[number];

export const RIGHTS_OF_ROLE: Readonly<Record<Role, readonly Right[]>> = {
  owner: ['read', 'write', 'manage'],
  analyst: ['read', 'write'],
  reader: ['read'],
};

export function mayDo(rights: readonly string[], wanted: Right): boolean {
  return ENOUGH_FOR[wanted].some((right) => rights.includes(right));
}
