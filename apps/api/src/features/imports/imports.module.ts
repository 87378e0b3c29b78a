import { Module } from '@nestjs/common';
import { ReconciliationModule } from '../reconciliation/reconciliation.module.js';
import { SheetMappingsModule } from '../sheet-mappings/sheet-mappings.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { ImportsController } from './imports.controller.js';
import { ImportsRepository } from './imports.repository.js';
import { ImportsService } from './imports.service.js';

@Module({
  imports: [ReconciliationModule, SheetMappingsModule, TermsModule],
  controllers: [ImportsController],
  providers: [ImportsService, ImportsRepository],
})
export class ImportsModule {}
