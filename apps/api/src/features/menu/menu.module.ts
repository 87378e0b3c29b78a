import { Module } from '@nestjs/common';
import { TermsModule } from '../terms/terms.module.js';
import { MenuController } from './menu.controller.js';
import { MenuRepository } from './menu.repository.js';
import { MenuService } from './menu.service.js';

@Module({
  imports: [TermsModule],
  controllers: [MenuController],
  providers: [MenuService, MenuRepository],
  exports: [MenuService],
})
export class MenuModule {}
