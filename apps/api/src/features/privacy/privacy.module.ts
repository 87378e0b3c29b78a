import { Module } from '@nestjs/common';
import { PlayersModule } from '../players/players.module.js';
import { PrivacyController } from './privacy.controller.js';
import { PrivacyRepository } from './privacy.repository.js';
import { PrivacyService } from './privacy.service.js';

@Module({ imports: [PlayersModule], controllers: [PrivacyController], providers: [PrivacyService, PrivacyRepository] })
export class PrivacyModule {}
