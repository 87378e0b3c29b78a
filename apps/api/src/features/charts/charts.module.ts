import { Module } from '@nestjs/common';
import { ReconciliationModule } from '../reconciliation/reconciliation.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { ChartChangesService } from './chart-changes.service.js';
import { ChartPacksRepository } from './chart-packs.repository.js';
import { ChartRecordsRepository } from './chart-records.repository.js';
import { ChartRecordsService } from './chart-records.service.js';
import { ChartsController } from './charts.controller.js';
import { ChartsRepository } from './charts.repository.js';
import { ChartsService } from './charts.service.js';
import { ContinuityService } from './continuity.service.js';

@Module({
  imports: [ReconciliationModule, TermsModule],
  controllers: [ChartsController],
  providers: [
    ChartsService,
    ChartsRepository,
    ChartRecordsService,
    ChartRecordsRepository,
    ChartChangesService,
    ContinuityService,
    ChartPacksRepository,
  ],
  exports: [ChartsService, ChartRecordsService, ChartChangesService],
})
export class ChartsModule {}
