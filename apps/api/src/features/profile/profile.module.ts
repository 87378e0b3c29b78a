import { Module } from '@nestjs/common';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { ProfileController } from './profile.controller.js';
import { ProfileService } from './profile.service.js';

@Module({ imports: [PlayersModule, TendenciesModule], controllers: [ProfileController], providers: [ProfileService] })
export class ProfileModule {}
