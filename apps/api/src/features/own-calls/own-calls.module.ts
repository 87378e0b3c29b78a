import { Module } from '@nestjs/common';
import { TermsModule } from '../terms/terms.module.js';
import { OwnCallsController } from './own-calls.controller.js';
import { OwnCallsRepository } from './own-calls.repository.js';
import { OwnCallsService } from './own-calls.service.js';

@Module({
  imports: [TermsModule],
  controllers: [OwnCallsController],
  providers: [OwnCallsService, OwnCallsRepository],
  exports: [OwnCallsService],
})
export class OwnCallsModule {}
