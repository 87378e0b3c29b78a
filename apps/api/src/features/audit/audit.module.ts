import { Module } from '@nestjs/common';
import { AuditReadingRepository } from './audit-reading.repository.js';
import { AuditController } from './audit.controller.js';
import { AuditService } from './audit.service.js';

@Module({ controllers: [AuditController], providers: [AuditService, AuditReadingRepository] })
export class AuditModule {}
