import { Module } from '@nestjs/common';
import { TermsModule } from '../terms/terms.module.js';
import { CoachingPointsController } from './coaching-points.controller.js';
import { CoachingPointsRepository } from './coaching-points.repository.js';
import { CoachingPointsService } from './coaching-points.service.js';

@Module({
  imports: [TermsModule],
  controllers: [CoachingPointsController],
  providers: [CoachingPointsService, CoachingPointsRepository],
  exports: [CoachingPointsService],
})
export class CoachingPointsModule {}
