import { Module } from '@nestjs/common';
import { PlayersController } from './players.controller.js';
import { PlayersRepository } from './players.repository.js';
import { PlayersService } from './players.service.js';

@Module({ controllers: [PlayersController], providers: [PlayersService, PlayersRepository], exports: [PlayersService] })
export class PlayersModule {}
