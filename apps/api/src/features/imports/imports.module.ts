import { Logger, Module, type OnApplicationBootstrap } from '@nestjs/common';
import { ReconciliationModule } from '../reconciliation/reconciliation.module.js';
import { SheetMappingsModule } from '../sheet-mappings/sheet-mappings.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { ImportsController } from './imports.controller.js';
import { ImportsRepository } from './imports.repository.js';
import { ImportsService } from './imports.service.js';
import { sweepSpools } from './spool.js';

@Module({
  imports: [ReconciliationModule, SheetMappingsModule, TermsModule],
  controllers: [ImportsController],
  providers: [ImportsService, ImportsRepository],
})
export class ImportsModule implements OnApplicationBootstrap {
  private readonly log = new Logger(ImportsModule.name);

  /** What cannot be swept costs room and nothing else, so it keeps nobody from starting. */
  async onApplicationBootstrap(): Promise<void> {
    try {
      const swept = await sweepSpools();
      if (swept.length > 0) this.log.log({ sweptSpools: swept.length });
    } catch (error) {
      this.log.warn({ sweepFailed: String(error) });
    }
  }
}
