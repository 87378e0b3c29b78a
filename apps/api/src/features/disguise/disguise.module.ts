import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { DisguiseController } from './disguise.controller.js';
import { DisguiseService } from './disguise.service.js';

@Module({ imports: [TendenciesModule], controllers: [DisguiseController], providers: [DisguiseService] })
export class DisguiseModule {}
