import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { MatchUpOverrideInput, MatchUpOverridePage, MatchUpOverrideResponse } from './match-up-overrides.dto.js';
import { MatchUpOverridesService } from './match-up-overrides.service.js';

@ApiTags('Next opponent')
@ApiBearerAuth()
@Controller('v1/match-up-overrides')
export class MatchUpOverridesController {
  constructor(private readonly overrides: MatchUpOverridesService) {}

  @ReadsPage('', MatchUpOverridePage, MatchUpOverrideResponse, 'Match-ups that the clan set by hand')
  list(@WithCredential() credential: Credential, @Query() query: IdPageQuery): Promise<MatchUpOverridePage> {
    return this.overrides.list(credential, query);
  }

  @Creates('', MatchUpOverrideResponse, 'Set a match-up by hand, over what the ratings say')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: MatchUpOverrideInput,
  ): Promise<MatchUpOverrideResponse> {
    return this.overrides.create(credential, creation, input);
  }

  @ReadsOne(':overrideId', MatchUpOverrideResponse, 'A match-up that was set by hand')
  read(
    @WithCredential() credential: Credential,
    @Param('overrideId', UuidPipe) id: string,
  ): Promise<MatchUpOverrideResponse> {
    return this.overrides.read(credential, id);
  }

  @Changes(':overrideId', MatchUpOverrideInput, MatchUpOverrideResponse, 'Change a match-up that was set by hand')
  change(
    @WithCredential() credential: Credential,
    @Param('overrideId', UuidPipe) id: string,
    @WithChange() change: Change,
  ): Promise<MatchUpOverrideResponse> {
    return this.overrides.change(credential, id, change);
  }

  @Removes(':overrideId', 'Let the ratings speak again')
  remove(
    @WithCredential() credential: Credential,
    @Param('overrideId', UuidPipe) id: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.overrides.remove(credential, id, ifMatch);
  }
}
