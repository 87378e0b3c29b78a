import { Module } from '@nestjs/common';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { ProfileController } from './profile.controller.js';
import { ProfileService } from './profile.service.js';

@Module({ imports: [TendenciesModule], controllers: [ProfileController], providers: [ProfileService] })
export class ProfileModule {}
