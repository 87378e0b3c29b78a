import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { ChartComparisonService } from './chart-comparison.service.js';
import { AgreementQuery, AgreementResponse, ReconciliationResponse } from './reconciliation.dto.js';

@ApiTags('Charting')
@ApiBearerAuth()
@Controller('v1/games/:gameId')
export class ReconciliationController {
  constructor(private readonly comparison: ChartComparisonService) {}

  @Get('agreement')
  @ApiOperation({ summary: "How far two charts of a game agree: Cohen's kappa by field, and the plays that differ" })
  @ApiOkResponse({ type: AgreementResponse })
  agreement(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
    @Query() query: AgreementQuery,
  ): Promise<AgreementResponse> {
    return this.comparison.agreement(credential, gameId, query);
  }

  @Get('reconciliation')
  @ApiOperation({ summary: 'What counts of the charts of a game, and which chart each value comes from' })
  @ApiOkResponse({ type: ReconciliationResponse })
  whatCounts(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
  ): Promise<ReconciliationResponse> {
    return this.comparison.whatCounts(credential, gameId);
  }
}
