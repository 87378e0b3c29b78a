import { Body, Controller, Param, Put, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Changes, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { MemberChange, MemberChoice, MemberPage, MemberResponse } from './members.dto.js';
import { MembersService } from './members.service.js';

@ApiTags('Clan')
@ApiBearerAuth()
@Controller('v1')
export class MembersController {
  constructor(private readonly members: MembersService) {}

  @ReadsPage('members', MemberPage, MemberResponse, 'The people of the clan')
  list(@WithCredential() credential: Credential, @Query() query: IdPageQuery): Promise<MemberPage> {
    return this.members.list(credential, query);
  }

  @ReadsOne('members/:memberId', MemberResponse, 'A member of the clan')
  read(
    @WithCredential() credential: Credential,
    @Param('memberId', UuidPipe) memberId: string,
  ): Promise<MemberResponse> {
    return this.members.read(credential, memberId);
  }

  @Changes('members/:memberId', MemberChange, MemberResponse, 'Give a member another role')
  @Needs('manage')
  change(
    @WithCredential() credential: Credential,
    @Param('memberId', UuidPipe) memberId: string,
    @WithChange() change: Change,
  ): Promise<MemberResponse> {
    return this.members.change(credential, memberId, change);
  }

  @Removes('members/:memberId', 'Remove a member: sessions and keys end, and what only that person could read goes')
  @Needs('manage')
  remove(
    @WithCredential() credential: Credential,
    @Param('memberId', UuidPipe) memberId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.members.remove(credential, memberId, ifMatch);
  }

  @Put('clan/owner')
  @Needs('manage')
  @ApiOperation({ summary: 'Hand the clan over: the other becomes owner, and you an analyst' })
  @ApiOkResponse({ type: MemberResponse })
  handOver(@WithCredential() credential: Credential, @Body() choice: MemberChoice): Promise<MemberResponse> {
    return this.members.handOver(credential, choice);
  }
}
