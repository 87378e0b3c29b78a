import { Module } from '@nestjs/common';
import { DictionaryService } from './dictionary.service.js';
import { TermsController } from './terms.controller.js';
import { TermsRepository } from './terms.repository.js';
import { TermsService } from './terms.service.js';

@Module({
  controllers: [TermsController],
  providers: [TermsService, DictionaryService, TermsRepository],
  exports: [TermsService],
})
export class TermsModule {}
