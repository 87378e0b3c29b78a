import { Inject, Injectable, type BeforeApplicationShutdown, type OnModuleInit } from '@nestjs/common';
import type { Pool } from 'pg';
import { ClanTransactions, SERVICE_POOL } from './clan-transaction.js';

const EVERY_MS = 60_000;

/**
 * Writes down when keys and sessions were last used. Once a minute for all of them and not with each request, since a
 * request that only reads cannot write, and one that writes would wait for others with the same key.
 */
@Injectable()
export class UseNotes implements OnModuleInit, BeforeApplicationShutdown {
  private timer: NodeJS.Timeout | undefined;

  constructor(
    @Inject(SERVICE_POOL) private readonly pool: Pool,
    private readonly transactions: ClanTransactions,
  ) {}

  onModuleInit(): void {
    this.timer = setInterval(() => void this.write(), EVERY_MS).unref();
  }

  async beforeApplicationShutdown(): Promise<void> {
    clearInterval(this.timer);
    await this.write();
  }

  async write(): Promise<void> {
    const used = [...this.transactions.used];
    if (used.length === 0) return;
    this.transactions.used.clear();
    const digests = used.map(([digest]) => Buffer.from(digest, 'hex'));
    const times = used.map(([, milliseconds]) => new Date(milliseconds));
    // A database that is away loses some minutes of this, which nobody has to be told.
    await this.pool.query('select app.note_use($1, $2)', [digests, times]).catch(() => undefined);
  }
}
