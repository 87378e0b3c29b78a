import { Module } from '@nestjs/common';
import { TermsRepository } from './terms.repository.js';
import { TermsService } from './terms.service.js';

@Module({ providers: [TermsService, TermsRepository], exports: [TermsService] })
export class TermsModule {}
