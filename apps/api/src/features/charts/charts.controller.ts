import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { ChartChange, ChartPage, ChartResponse, ChartsQuery, NewChart } from './chart-records.dto.js';
import { ChartRecordsService } from './chart-records.service.js';
import { ContinuityResponse } from './continuity.dto.js';
import { ContinuityService } from './continuity.service.js';

@ApiTags('Charting')
@ApiBearerAuth()
@Controller('v1/charts')
export class ChartsController {
  constructor(
    private readonly charts: ChartRecordsService,
    private readonly continuity: ContinuityService,
  ) {}

  @ReadsPage('', ChartPage, ChartResponse, 'Charts that the clan may see')
  list(@WithCredential() credential: Credential, @Query() query: ChartsQuery): Promise<ChartPage> {
    return this.charts.list(credential, query);
  }

  @Creates('', ChartResponse, 'Begin a chart of a game of yours, to be filled play by play')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: NewChart,
  ): Promise<ChartResponse> {
    return this.charts.create(credential, creation, input);
  }

  @ReadsOne(':chartId', ChartResponse, 'A chart: who made it, what of the film it covers, and its revision')
  read(@WithCredential() credential: Credential, @Param('chartId', UuidPipe) chartId: string): Promise<ChartResponse> {
    return this.charts.read(credential, chartId);
  }

  @ReadsOne(':chartId/continuity', ContinuityResponse, 'Plays of a chart that do not follow from the play before')
  readContinuity(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
  ): Promise<ContinuityResponse> {
    return this.continuity.read(credential, chartId);
  }

  @Changes(':chartId', ChartChange, ChartResponse, 'Change what a chart says of itself; its plays stay')
  change(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
    @WithChange() change: Change,
  ): Promise<ChartResponse> {
    return this.charts.change(credential, chartId, change);
  }

  @Removes(':chartId', 'Remove a chart with its plays')
  remove(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.charts.remove(credential, chartId, ifMatch);
  }
}
