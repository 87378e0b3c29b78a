import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { DriftController } from './drift.controller.js';
import { DriftService } from './drift.service.js';

@Module({ imports: [TendenciesModule], controllers: [DriftController], providers: [DriftService] })
export class DriftModule {}
