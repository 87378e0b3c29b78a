/** What the forms of the pages ask for, as the ends of their addresses. */
export const ACTIONS = [
  ...([
    'sign-in',
    'sign-up',
    'sign-out',
    'join',
    'join-as',
    'clan',
    'leave',
    'end-session',
    'passphrase',
    'erase',
  ] as const),
  ...(['make-key', 'revoke-key', 'invite', 'withdraw', 'change-role', 'remove-member'] as const),
] as const;
export type Action = (typeof ACTIONS)[number];

/** Those of somebody who need not have signed in. */
export const OPEN_ACTIONS: ReadonlySet<Action> = new Set<Action>(['sign-in', 'sign-up', 'join']);
