import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsComputed, sendTagged, taggedBy } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { ChartingQueueQuery, ChartingQueueResponse } from './charting-queue.dto.js';
import { ChartingQueueService } from './charting-queue.service.js';

@ApiTags('Next opponent')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/events/:eventId/charting-queue')
export class ChartingQueueController {
  constructor(private readonly queue: ChartingQueueService) {}

  @ReadsComputed('', ChartingQueueResponse, 'What to chart next, and who, in the time that is left')
  async read(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Query() query: ChartingQueueQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, taggedBy(await this.queue.read(credential, eventId, query), heldTag));
  }
}
