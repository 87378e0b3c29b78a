import { Module } from '@nestjs/common';
import { TermsModule } from '../terms/terms.module.js';
import { SheetMappingsController } from './sheet-mappings.controller.js';
import { SheetMappingsRepository } from './sheet-mappings.repository.js';
import { SheetMappingsService } from './sheet-mappings.service.js';

@Module({
  imports: [TermsModule],
  controllers: [SheetMappingsController],
  providers: [SheetMappingsService, SheetMappingsRepository],
  exports: [SheetMappingsService],
})
export class SheetMappingsModule {}
