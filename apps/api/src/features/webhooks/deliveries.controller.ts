import { Controller, HttpCode, Param, Post, Query, UseGuards } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithIfMatch } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Creates, IF_MATCH, ReadsOne, ReadsPage } from '../../common/resource.decorators.js';
import { OneAnswer } from '../../common/resource.answers.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { DeliveryPage, DeliveryResponse } from './deliveries.dto.js';
import { DeliveriesService } from './deliveries.service.js';

@ApiTags('Live')
@ApiBearerAuth()
@Needs('manage')
@Controller('v1/webhooks/:webhookId/deliveries')
export class DeliveriesController {
  constructor(private readonly deliveries: DeliveriesService) {}

  @ReadsPage('', DeliveryPage, DeliveryResponse, 'What a webhook was told in the last seven days, the newest first')
  list(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
    @Query() query: IdPageQuery,
  ): Promise<DeliveryPage> {
    return this.deliveries.list(credential, webhookId, query);
  }

  @ReadsOne(':deliveryId', DeliveryResponse, 'How a delivery went')
  read(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
    @Param('deliveryId', UuidPipe) deliveryId: string,
  ): Promise<DeliveryResponse> {
    return this.deliveries.read(credential, webhookId, deliveryId);
  }

  @Creates('', DeliveryResponse, 'Send a message that tells of nothing, to see whether it arrives')
  test(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('webhookId', UuidPipe) webhookId: string,
  ): Promise<DeliveryResponse> {
    return this.deliveries.test(credential, creation, webhookId);
  }

  @Post(':deliveryId/repetition')
  @HttpCode(200)
  @ApiOperation({ summary: 'Send the same message again, from the beginning of the schedule' })
  @IF_MATCH
  @ApiOkResponse({ type: DeliveryResponse })
  @UseGuards(new OneAnswer(DeliveryResponse))
  repeat(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
    @Param('deliveryId', UuidPipe) deliveryId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<DeliveryResponse> {
    return this.deliveries.repeat(credential, webhookId, deliveryId, ifMatch);
  }
}
