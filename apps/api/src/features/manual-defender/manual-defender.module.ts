import { Module } from '@nestjs/common';
import { MenuModule } from '../menu/menu.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { ManualDefenderController } from './manual-defender.controller.js';
import { ManualDefenderService } from './manual-defender.service.js';

@Module({
  imports: [MenuModule, TendenciesModule],
  controllers: [ManualDefenderController],
  providers: [ManualDefenderService],
})
export class ManualDefenderModule {}
