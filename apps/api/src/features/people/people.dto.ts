import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID, Length, Matches } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { RIGHTS, ROLES, type Right, type Role } from '../../common/rights.js';

const SIGN_IN_NAME = { minLength: 3, maxLength: 80, example: 'marlow' };
const PASSPHRASE = { minLength: 15, maxLength: 256, format: 'password', example: 'four lanterns over wet slate' };
const NAME = { minLength: 1, maxLength: 80, example: 'Marlow' };
const CLAN_ID = { format: 'uuid', example: EXAMPLE_IDS.event };
const INVITATION = { example: 'rbi_Q3eU4nVq0mX7yBz1fK2hTgW9sLpR6dJc8aNoZiEvYx5' };

// Forms show these messages beside their fields, so they are in words of people.
const IsLong = (least: number, most: number): PropertyDecorator =>
  Length(least, most, { message: `${least} to ${most} characters` });

/** Typed by a person, so without what can be mistaken for something else. */
const IsSignInName = (): PropertyDecorator =>
  Matches(/^[^\s\p{C}]{3,80}$/u, { message: '3 to 80 characters without spaces' });

/** Length is what makes one hard to guess, so nothing else is asked of it (NIST SP 800-63B, 3.1.1.2). */
const IsPassphrase = (): PropertyDecorator => IsLong(15, 256);

export class SignInInput {
  @ApiProperty({ ...SIGN_IN_NAME, description: 'capital letters do not matter' })
  @IsLong(1, 80)
  signInName!: string;

  @ApiProperty({ ...PASSPHRASE, minLength: 1 })
  @IsLong(1, 256)
  passphrase!: string;

  @ApiPropertyOptional({ ...CLAN_ID, description: 'in which clan to begin; else the one last used' })
  @IsOptional()
  @IsUUID()
  clanId?: string;
}

class NewPerson {
  @ApiProperty(SIGN_IN_NAME)
  @IsSignInName()
  signInName!: string;

  @ApiProperty(PASSPHRASE)
  @IsPassphrase()
  passphrase!: string;

  @ApiProperty({ ...NAME, description: 'as the clan calls you' })
  @IsLong(1, 80)
  name!: string;
}

export class SignUpInput extends NewPerson {
  @ApiProperty({ minLength: 1, maxLength: 80, example: 'Night Shift Almanac' })
  @IsLong(1, 80)
  clanName!: string;
}

export class InvitationShown {
  @ApiProperty({ ...INVITATION, description: 'what stands at the end of the link' })
  @Matches(/^rbi_[A-Za-z0-9_-]{43}$/, { message: 'the end of an invitation link: rbi_...' })
  invitation!: string;
}

/** Accepts an invitation as somebody new. */
export class JoinInput extends NewPerson {
  @ApiProperty(INVITATION)
  @Matches(/^rbi_[A-Za-z0-9_-]{43}$/, { message: 'the end of an invitation link: rbi_...' })
  invitation!: string;
}

/** Accepts an invitation as the person who has signed in. */
export class JoinAsInput extends InvitationShown {
  @ApiProperty({ ...NAME, description: 'as this clan is to call you' })
  @IsLong(1, 80)
  name!: string;
}

export class InvitationPreview {
  @ApiProperty({ example: 'Night Shift Almanac' }) clanName!: string;
  @ApiProperty({ enum: ROLES, example: 'analyst' }) role!: Role;
  @ApiProperty({ format: 'date-time', example: '2026-03-08T18:00:00Z' }) expiresAt!: string;
}

export class ClanChoice {
  @ApiProperty({ ...CLAN_ID, description: 'a clan that you are a member of' })
  @IsUUID()
  clanId!: string;
}

export class PassphraseChange {
  @ApiProperty({ ...PASSPHRASE, minLength: 1 })
  @IsLong(1, 256)
  passphrase!: string;

  @ApiProperty(PASSPHRASE)
  @IsPassphrase()
  newPassphrase!: string;
}

export class PersonErasure {
  @ApiPropertyOptional({
    type: String,
    minLength: 1,
    maxLength: 256,
    description: 'yours, once more; not needed by who signs in through an OpenID provider only',
  })
  @IsOptional()
  @IsLong(1, 256)
  passphrase?: string;
}

export class Membership {
  @ApiProperty(CLAN_ID) clanId!: string;
  @ApiProperty({ example: 'Night Shift Almanac' }) clanName!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) memberId!: string;
  @ApiProperty({ example: 'Marlow' }) memberName!: string;
  @ApiProperty({ enum: ROLES, example: 'owner' }) role!: Role;
}

export class SessionResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({
    type: String,
    nullable: true,
    example: 'marlow',
    description: 'null for who signs in through an OpenID provider only',
  })
  signInName!: string | null;
  @ApiProperty({ ...CLAN_ID, type: String, nullable: true, description: 'the clan that requests are made in' })
  clanId!: string | null;
  @ApiProperty({ format: 'uuid', type: String, nullable: true, example: EXAMPLE_IDS.player })
  memberId!: string | null;
  @ApiProperty({ enum: RIGHTS, isArray: true, example: ['read', 'write', 'manage'] }) rights!: readonly Right[];
  @ApiProperty({ format: 'date-time', example: '2026-03-31T18:00:00Z' }) expiresAt!: string;
  @ApiProperty({ description: 'to be sent as X-CSRF-Token with everything that changes something' })
  csrfToken!: string;
  @ApiProperty({ type: [Membership] }) clans!: Membership[];
}

export class OwnSession {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ type: String, nullable: true, example: 'Mozilla/5.0', description: 'as the browser called itself' })
  userAgent!: string | null;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) createdAt!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z', description: 'to the minute' })
  lastUsedAt!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-31T18:00:00Z' }) expiresAt!: string;
  @ApiProperty({ example: true, description: 'whether it is the one that asks' }) current!: boolean;
}

export class OwnSessions {
  @ApiProperty({ type: [OwnSession] }) items!: OwnSession[];
}
