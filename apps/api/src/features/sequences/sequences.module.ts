import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { SequencesController } from './sequences.controller.js';
import { SequencesService } from './sequences.service.js';

@Module({ imports: [TendenciesModule], controllers: [SequencesController], providers: [SequencesService] })
export class SequencesModule {}
