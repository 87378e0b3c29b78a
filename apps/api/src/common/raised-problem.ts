import { errorCode } from '../database/error-code.js';
import type { ApiErrorCode } from './problems.js';

interface RaisedProblem {
  readonly code: ApiErrorCode;
  readonly detail: string;
}

/** What the functions of schema `app` refuse with an SQLSTATE of their own, for whoever asked. */
const RAISED: Readonly<Record<string, RaisedProblem>> = {
  RB002: { code: 'access.key_refused', detail: 'the key or session is not known, has expired or was revoked' },
  RB004: { code: 'resource.not_found', detail: 'there is nothing of yours with this id' },
  RB006: { code: 'access.sign_up_closed', detail: 'ask an owner of the clan for an invitation' },
  RB007: { code: 'clan.owner_needed', detail: 'hand the clan over to another member first' },
  RB008: { code: 'access.sign_in_refused', detail: 'the name or the passphrase is not right' },
  RB009: { code: 'invitation.refused', detail: 'ask for another invitation' },
  RB011: { code: 'link.refused', detail: 'ask whoever gave it to you for another' },
  RB010: { code: 'member.already', detail: 'this person is a member of the clan already' },
};

/** @returns null for whatever the schema did not raise on purpose */
export function raisedProblem(thrown: unknown): RaisedProblem | null {
  return RAISED[String(errorCode(thrown))] ?? null;
}
