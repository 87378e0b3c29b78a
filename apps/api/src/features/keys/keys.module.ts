import { Module } from '@nestjs/common';
import { KeysController } from './keys.controller.js';
import { KeysRepository } from './keys.repository.js';
import { KeysService } from './keys.service.js';

@Module({ controllers: [KeysController], providers: [KeysService, KeysRepository], exports: [KeysService] })
export class KeysModule {}
