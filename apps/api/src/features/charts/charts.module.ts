import { Module } from '@nestjs/common';
import { ChartsRepository } from './charts.repository.js';
import { ChartsService } from './charts.service.js';

@Module({ providers: [ChartsService, ChartsRepository], exports: [ChartsService] })
export class ChartsModule {}
