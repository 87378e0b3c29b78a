import { Body, Controller, HttpCode, Param, Post, Query, UseGuards } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Changes, Creates, IF_MATCH, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { OneAnswer } from '../../common/resource.answers.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { NewWebhook, WebhookInput, WebhookPage, WebhookResponse } from './webhooks.dto.js';
import { WebhooksService } from './webhooks.service.js';

@ApiTags('Live')
@ApiBearerAuth()
@Needs('manage')
@Controller('v1/webhooks')
export class WebhooksController {
  constructor(private readonly webhooks: WebhooksService) {}

  @ReadsPage('', WebhookPage, WebhookResponse, 'Addresses that are told what the feed tells')
  list(@WithCredential() credential: Credential, @Query() query: IdPageQuery): Promise<WebhookPage> {
    return this.webhooks.list(credential, query);
  }

  @Creates('', NewWebhook, 'Have an address told, by messages signed with a secret that is shown this once')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: WebhookInput,
  ): Promise<NewWebhook> {
    return this.webhooks.create(credential, creation, input);
  }

  @ReadsOne(':webhookId', WebhookResponse, 'A webhook, without its secret')
  read(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
  ): Promise<WebhookResponse> {
    return this.webhooks.read(credential, webhookId);
  }

  @Changes(':webhookId', WebhookInput, WebhookResponse, 'Change a webhook, turn it off, or on again after it ended')
  change(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
    @WithChange() change: Change,
  ): Promise<WebhookResponse> {
    return this.webhooks.change(credential, webhookId, change);
  }

  @Removes(':webhookId', 'Remove a webhook, with what was still to be told')
  remove(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.webhooks.remove(credential, webhookId, ifMatch);
  }

  @Post(':webhookId/secret')
  @HttpCode(200)
  @ApiOperation({ summary: 'Sign with another secret; the one before signs too for a day' })
  @IF_MATCH
  @ApiOkResponse({ type: NewWebhook })
  @UseGuards(new OneAnswer(NewWebhook))
  renewSecret(
    @WithCredential() credential: Credential,
    @Param('webhookId', UuidPipe) webhookId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<NewWebhook> {
    return this.webhooks.renewSecret(credential, webhookId, ifMatch);
  }
}
