import { Module } from '@nestjs/common';
import { MenuModule } from '../menu/menu.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { AnswersController } from './answers.controller.js';
import { AnswersService } from './answers.service.js';
import { FieldAnswersService } from './field-answers.service.js';
import { UnitGradesRepository } from './unit-grades.repository.js';

@Module({
  imports: [MenuModule, PlayersModule, TendenciesModule, TermsModule],
  controllers: [AnswersController],
  providers: [AnswersService, FieldAnswersService, UnitGradesRepository],
  exports: [FieldAnswersService],
})
export class AnswersModule {}
