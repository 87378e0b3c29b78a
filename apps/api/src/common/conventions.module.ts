import { Global, Module } from '@nestjs/common';
import { AuditRepository } from './audit.repository.js';
import { IdempotencyRepository } from './idempotency.repository.js';
import { KeptAnswers } from './kept-answers.js';
import { NamesInViewRepository } from './names-in-view.repository.js';
import { QuotaRepository } from './quota.repository.js';
import { Resources } from './resources.js';

/** Hands every feature the conventions of creating, changing and removing, and of answers that are computed. */
@Global()
@Module({
  providers: [Resources, IdempotencyRepository, AuditRepository, QuotaRepository, KeptAnswers, NamesInViewRepository],
  exports: [Resources, IdempotencyRepository, AuditRepository, QuotaRepository, KeptAnswers, NamesInViewRepository],
})
export class ConventionsModule {}
