import { Global, Module } from '@nestjs/common';
import { AuditRepository } from './audit.repository.js';
import { IdempotencyRepository } from './idempotency.repository.js';
import { QuotaRepository } from './quota.repository.js';
import { Resources } from './resources.js';

/** Hands every feature the conventions of creating, changing and removing. */
@Global()
@Module({
  providers: [Resources, IdempotencyRepository, AuditRepository, QuotaRepository],
  exports: [Resources, IdempotencyRepository, AuditRepository, QuotaRepository],
})
export class ConventionsModule {}
