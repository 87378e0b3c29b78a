import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { OwnCallInput, OwnCallPage, OwnCallResponse, OwnCallsQuery } from './own-calls.dto.js';
import { OwnCallsService } from './own-calls.service.js';

@ApiTags('Own book')
@ApiBearerAuth()
@Controller('v1/own-calls')
export class OwnCallsController {
  constructor(private readonly calls: OwnCallsService) {}

  @ReadsPage('', OwnCallPage, OwnCallResponse, 'What the clan meant to call, apart from what was seen')
  list(@WithCredential() credential: Credential, @Query() query: OwnCallsQuery): Promise<OwnCallPage> {
    return this.calls.list(credential, query);
  }

  @Creates('', OwnCallResponse, 'Log what was meant to be called')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: OwnCallInput,
  ): Promise<OwnCallResponse> {
    return this.calls.create(credential, creation, input);
  }

  @ReadsOne(':ownCallId', OwnCallResponse, 'A logged call')
  read(
    @WithCredential() credential: Credential,
    @Param('ownCallId', UuidPipe) ownCallId: string,
  ): Promise<OwnCallResponse> {
    return this.calls.read(credential, ownCallId);
  }

  @Changes(':ownCallId', OwnCallInput, OwnCallResponse, 'Change a logged call')
  change(
    @WithCredential() credential: Credential,
    @Param('ownCallId', UuidPipe) ownCallId: string,
    @WithChange() change: Change,
  ): Promise<OwnCallResponse> {
    return this.calls.change(credential, ownCallId, change);
  }

  @Removes(':ownCallId', 'Remove a logged call')
  remove(
    @WithCredential() credential: Credential,
    @Param('ownCallId', UuidPipe) ownCallId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.calls.remove(credential, ownCallId, ifMatch);
  }
}
