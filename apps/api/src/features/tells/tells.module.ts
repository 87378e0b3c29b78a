import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { TellsController } from './tells.controller.js';
import { TellsService } from './tells.service.js';

@Module({ imports: [TendenciesModule], controllers: [TellsController], providers: [TellsService] })
export class TellsModule {}
