import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { DecisionsController } from './decisions.controller.js';
import { DecisionsService } from './decisions.service.js';

@Module({ imports: [TendenciesModule], controllers: [DecisionsController], providers: [DecisionsService] })
export class DecisionsModule {}
