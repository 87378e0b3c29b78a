import { Body, Controller, Param, Query, Req } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Request } from 'express';
import { WithIfMatch } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { originOf } from '../access/session-cookie.js';
import { InvitationInput, InvitationPage, InvitationResponse, NewInvitation } from './invitations.dto.js';
import { InvitationsService } from './invitations.service.js';

@ApiTags('Clan')
@ApiBearerAuth()
@Needs('manage')
@Controller('v1/invitations')
export class InvitationsController {
  constructor(private readonly invitations: InvitationsService) {}

  @ReadsPage('', InvitationPage, InvitationResponse, 'The invitations of the clan, also those that were accepted')
  list(@WithCredential() credential: Credential, @Query() query: IdPageQuery): Promise<InvitationPage> {
    return this.invitations.list(credential, query);
  }

  @Creates('', NewInvitation, 'Invite a person by a link that works once')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: InvitationInput,
    @Req() request: Request,
  ): Promise<NewInvitation> {
    return this.invitations.create(credential, creation, input, originOf(request));
  }

  @ReadsOne(':invitationId', InvitationResponse, 'An invitation')
  read(
    @WithCredential() credential: Credential,
    @Param('invitationId', UuidPipe) invitationId: string,
  ): Promise<InvitationResponse> {
    return this.invitations.read(credential, invitationId);
  }

  @Removes(':invitationId', 'Withdraw an invitation: its link works no more')
  withdraw(
    @WithCredential() credential: Credential,
    @Param('invitationId', UuidPipe) invitationId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.invitations.withdraw(credential, invitationId, ifMatch);
  }
}
