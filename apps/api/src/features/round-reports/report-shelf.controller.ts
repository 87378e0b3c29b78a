import { Controller, Delete, HttpCode, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiNoContentResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { ReadsPage } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { ReportPage, ReportsQuery, ReportSummary } from './report-shelf.dto.js';
import { ReportShelfService } from './report-shelf.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Controller('v1/round-reports')
export class ReportShelfController {
  constructor(private readonly shelf: ReportShelfService) {}

  @ReadsPage('', ReportPage, ReportSummary, 'The scouting reports that were made')
  @Needs('profiles')
  list(@WithCredential() credential: Credential, @Query() query: ReportsQuery): Promise<ReportPage> {
    return this.shelf.list(credential, query);
  }

  @Delete(':reportId')
  @HttpCode(204)
  @ApiOperation({ summary: 'Throw a scouting report away' })
  @ApiNoContentResponse({ description: 'it is gone' })
  remove(@WithCredential() credential: Credential, @Param('reportId', UuidPipe) reportId: string): Promise<void> {
    return this.shelf.remove(credential, reportId);
  }
}
