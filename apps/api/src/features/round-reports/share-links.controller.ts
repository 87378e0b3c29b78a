import { Body, Controller, Param, Query, Req } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Request } from 'express';
import { WithIfMatch } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { originOf } from '../access/session-cookie.js';
import { NewShareLink, ShareLinkInput, ShareLinkPage, ShareLinkResponse } from './share-links.dto.js';
import { ShareLinksService } from './share-links.service.js';

@ApiTags('Sharing')
@ApiBearerAuth()
@Controller('v1/round-reports/:reportId/share-links')
export class ShareLinksController {
  constructor(private readonly links: ShareLinksService) {}

  @ReadsPage('', ShareLinkPage, ShareLinkResponse, 'The links that open a report to others, also those that ended')
  list(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Query() query: IdPageQuery,
  ): Promise<ShareLinkPage> {
    return this.links.list(credential, reportId, query);
  }

  @Creates('', NewShareLink, 'Make a link that opens this report, read-only, to whoever has it')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('reportId', UuidPipe) reportId: string,
    @Body() input: ShareLinkInput,
    @Req() request: Request,
  ): Promise<NewShareLink> {
    return this.links.create(credential, creation, reportId, input, originOf(request));
  }

  @ReadsOne(':linkId', ShareLinkResponse, 'A link to a report')
  read(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Param('linkId', UuidPipe) linkId: string,
  ): Promise<ShareLinkResponse> {
    return this.links.read(credential, reportId, linkId);
  }

  @Removes(':linkId', 'Revoke a link: from the next request on it opens nothing')
  revoke(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Param('linkId', UuidPipe) linkId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.links.revoke(credential, reportId, linkId, ifMatch);
  }
}
