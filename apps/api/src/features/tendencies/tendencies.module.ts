import { Module } from '@nestjs/common';
import { ChartsModule } from '../charts/charts.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { TendenciesService } from './tendencies.service.js';

@Module({ imports: [ChartsModule, TermsModule], providers: [TendenciesService], exports: [TendenciesService] })
export class TendenciesModule {}
