import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { AdjustmentsController } from './adjustments.controller.js';
import { AdjustmentsService } from './adjustments.service.js';

@Module({ imports: [TendenciesModule], controllers: [AdjustmentsController], providers: [AdjustmentsService] })
export class AdjustmentsModule {}
