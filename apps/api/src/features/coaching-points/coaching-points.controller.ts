import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import {
  CoachingPointInput,
  CoachingPointPage,
  CoachingPointResponse,
  CoachingPointsQuery,
  CoachingPointVersions,
} from './coaching-points.dto.js';
import { CoachingPointsService } from './coaching-points.service.js';

@ApiTags('Own book')
@ApiBearerAuth()
@Controller('v1/coaching-points')
export class CoachingPointsController {
  constructor(private readonly points: CoachingPointsService) {}

  @ReadsPage('', CoachingPointPage, CoachingPointResponse, 'Coaching points of the clan')
  list(@WithCredential() credential: Credential, @Query() query: CoachingPointsQuery): Promise<CoachingPointPage> {
    return this.points.list(credential, query);
  }

  @Creates('', CoachingPointResponse, 'Write a coaching point on a call, an answer, an opponent or a play')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: CoachingPointInput,
  ): Promise<CoachingPointResponse> {
    return this.points.create(credential, creation, input);
  }

  @ReadsOne(':coachingPointId', CoachingPointResponse, 'A coaching point')
  read(
    @WithCredential() credential: Credential,
    @Param('coachingPointId', UuidPipe) coachingPointId: string,
  ): Promise<CoachingPointResponse> {
    return this.points.read(credential, coachingPointId);
  }

  @Changes(
    ':coachingPointId',
    CoachingPointInput,
    CoachingPointResponse,
    'Change a coaching point; what it said before is kept',
  )
  change(
    @WithCredential() credential: Credential,
    @Param('coachingPointId', UuidPipe) coachingPointId: string,
    @WithChange() change: Change,
  ): Promise<CoachingPointResponse> {
    return this.points.change(credential, coachingPointId, change);
  }

  @Removes(':coachingPointId', 'Remove a coaching point with all its versions')
  remove(
    @WithCredential() credential: Credential,
    @Param('coachingPointId', UuidPipe) coachingPointId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.points.remove(credential, coachingPointId, ifMatch);
  }

  @ReadsOne(':coachingPointId/versions', CoachingPointVersions, 'What a coaching point says and said, and who wrote it')
  versions(
    @WithCredential() credential: Credential,
    @Param('coachingPointId', UuidPipe) coachingPointId: string,
  ): Promise<CoachingPointVersions> {
    return this.points.versions(credential, coachingPointId);
  }
}
