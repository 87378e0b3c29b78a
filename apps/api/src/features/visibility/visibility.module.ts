import { Module } from '@nestjs/common';
import { VisibilityController } from './visibility.controller.js';
import { VisibilityRepository } from './visibility.repository.js';
import { VisibilityService } from './visibility.service.js';

@Module({ controllers: [VisibilityController], providers: [VisibilityService, VisibilityRepository] })
export class VisibilityModule {}
