import { Module } from '@nestjs/common';
import { AnswersModule } from '../answers/answers.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { CallMixController } from './call-mix.controller.js';
import { CallMixService } from './call-mix.service.js';

@Module({
  imports: [AnswersModule, TendenciesModule],
  controllers: [CallMixController],
  providers: [CallMixService],
  exports: [CallMixService],
})
export class CallMixModule {}
