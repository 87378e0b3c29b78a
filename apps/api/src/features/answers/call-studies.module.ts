import { Module } from '@nestjs/common';
import { AnswersModule } from './answers.module.js';
import { CoachingPointsModule } from '../coaching-points/coaching-points.module.js';
import { RoundReportsModule } from '../round-reports/round-reports.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { TrendsModule } from '../trends/trends.module.js';
import { CallStudiesController } from './call-studies.controller.js';
import { CallStudiesService } from './call-studies.service.js';

@Module({
  imports: [AnswersModule, CoachingPointsModule, RoundReportsModule, TendenciesModule, TrendsModule],
  controllers: [CallStudiesController],
  providers: [CallStudiesService],
})
export class CallStudiesModule {}
