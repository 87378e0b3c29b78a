import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { PointOfAttackController } from './point-of-attack.controller.js';
import { PointOfAttackService } from './point-of-attack.service.js';

@Module({ imports: [TendenciesModule], controllers: [PointOfAttackController], providers: [PointOfAttackService] })
export class PointOfAttackModule {}
