import { Module } from '@nestjs/common';
import { TermsModule } from '../terms/terms.module.js';
import { ChartComparisonService } from './chart-comparison.service.js';
import { ReconciliationController } from './reconciliation.controller.js';
import { ReconciliationRepository } from './reconciliation.repository.js';
import { ReconciliationService } from './reconciliation.service.js';

@Module({
  imports: [TermsModule],
  controllers: [ReconciliationController],
  providers: [ChartComparisonService, ReconciliationService, ReconciliationRepository],
  exports: [ReconciliationService],
})
export class ReconciliationModule {}
