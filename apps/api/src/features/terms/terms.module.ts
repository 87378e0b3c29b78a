import { Module } from '@nestjs/common';
import { DictionaryService } from './dictionary.service.js';
import { TermWordsService } from './term-words.service.js';
import { WordedResourcesService } from './worded-resources.service.js';
import { TermsController } from './terms.controller.js';
import { TermsRepository } from './terms.repository.js';
import { TermsService } from './terms.service.js';

@Module({
  controllers: [TermsController],
  providers: [TermsService, TermWordsService, WordedResourcesService, DictionaryService, TermsRepository],
  exports: [TermsService, TermWordsService, WordedResourcesService],
})
export class TermsModule {}
