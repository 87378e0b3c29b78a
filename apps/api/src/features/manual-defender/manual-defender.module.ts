import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { ManualDefenderController } from './manual-defender.controller.js';
import { ManualDefenderService } from './manual-defender.service.js';

@Module({ imports: [TendenciesModule], controllers: [ManualDefenderController], providers: [ManualDefenderService] })
export class ManualDefenderModule {}
