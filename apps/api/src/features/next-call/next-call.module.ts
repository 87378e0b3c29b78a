import { Module } from '@nestjs/common';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { CallFitting } from './call-fitting.js';
import { NextCallController } from './next-call.controller.js';
import { NextCallService } from './next-call.service.js';

@Module({
  imports: [PlayersModule, TendenciesModule],
  controllers: [NextCallController],
  providers: [NextCallService, CallFitting],
})
export class NextCallModule {}
