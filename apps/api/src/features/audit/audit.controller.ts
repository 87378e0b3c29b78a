import { Controller, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { ReadsPage } from '../../common/resource.decorators.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { AuditEntryResponse, AuditPage, AuditQuery } from './audit.dto.js';
import { AuditService } from './audit.service.js';

@ApiTags('Clan')
@ApiBearerAuth()
@Needs('manage')
@Controller('v1/audit')
export class AuditController {
  constructor(private readonly audit: AuditService) {}

  @ReadsPage('', AuditPage, AuditEntryResponse, 'Who did what in the clan, the latest first')
  list(@WithCredential() credential: Credential, @Query() query: AuditQuery): Promise<AuditPage> {
    return this.audit.list(credential, query);
  }
}
