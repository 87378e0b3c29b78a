import { type DynamicModule, Inject, Module, type OnApplicationShutdown } from '@nestjs/common';
import type { Pool } from 'pg';
import { SETTINGS, type Settings } from '../config/settings.js';
import { ClanTransactions, SERVICE_POOL } from './clan-transaction.js';
import { createServicePool } from './service-pool.js';
import { UseNotes } from './use-notes.js';
import { Wakes } from './wakes.js';

/** Gives every feature `ClanTransactions` and the settings, and closes the connections when the service ends. */
@Module({})
export class DatabaseModule implements OnApplicationShutdown {
  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {}

  static connect(settings: Settings, serviceUrl: string): DynamicModule {
    return {
      module: DatabaseModule,
      global: true,
      providers: [
        { provide: SETTINGS, useValue: settings },
        { provide: SERVICE_POOL, useFactory: () => createServicePool(serviceUrl, settings) },
        ClanTransactions,
        UseNotes,
        Wakes,
      ],
      exports: [SETTINGS, SERVICE_POOL, ClanTransactions, Wakes],
    };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.pool.end();
  }
}
