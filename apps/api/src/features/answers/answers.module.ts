import { Module } from '@nestjs/common';
import { MenuModule } from '../menu/menu.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { AnswersController } from './answers.controller.js';
import { AskedCallsService } from './asked-calls.service.js';
import { AnswersService } from './answers.service.js';
import { FieldAnswersService } from './field-answers.service.js';
import { UnitGradesRepository } from './unit-grades.repository.js';

@Module({
  imports: [MenuModule, PlayersModule, TendenciesModule, TermsModule],
  controllers: [AnswersController],
  providers: [AnswersService, AskedCallsService, FieldAnswersService, UnitGradesRepository],
  exports: [AskedCallsService, FieldAnswersService],
})
export class AnswersModule {}
