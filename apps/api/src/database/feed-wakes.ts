import { Inject, Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { Client, type Pool } from 'pg';
import { SERVICE_POOL } from './clan-transaction.js';

const CHANNEL = 'roundbook_feed';
const TRY_AGAIN_MS = 1_000;

/**
 * Wakes whoever streams a clan's feed when something was told in it. One connection for the whole process, and none while
 * nobody streams. A wake carries nothing: what there is to read is asked for under each reader's own rights.
 */
@Injectable()
export class FeedWakes implements OnApplicationShutdown {
  private readonly log = new Logger(FeedWakes.name);
  private readonly sleepers = new Map<string, Set<() => void>>();
  private listening: Promise<Client> | null = null;
  private again: NodeJS.Timeout | undefined;
  private closed = false;

  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {}

  /** @returns how to sleep for ever; nothing that is told from now on goes unheard until then */
  async subscribe(clanId: string, wake: () => void): Promise<() => void> {
    const ofClan = this.sleepers.get(clanId) ?? new Set();
    this.sleepers.set(clanId, ofClan.add(wake));
    await this.listen();
    return () => {
      ofClan.delete(wake);
      if (ofClan.size === 0 && this.sleepers.get(clanId) === ofClan) this.sleepers.delete(clanId);
    };
  }

  /** How many stream a clan's feed. */
  count(clanId: string): number {
    return this.sleepers.get(clanId)?.size ?? 0;
  }

  async onApplicationShutdown(): Promise<void> {
    this.closed = true;
    clearTimeout(this.again);
    const client = await this.listening?.catch(() => null);
    await client?.end();
  }

  private async listen(): Promise<void> {
    this.listening ??= this.connect();
    try {
      await this.listening;
    } catch (error) {
      this.lost(error);
    }
  }

  private async connect(): Promise<Client> {
    const client = new Client({ ...this.pool.options, application_name: 'roundbook feed', keepAlive: true });
    client.on('notification', ({ payload }) => {
      for (const wake of this.sleepers.get(payload ?? '') ?? []) wake();
    });
    client.on('error', (error) => {
      this.lost(error);
    });
    client.on('end', () => {
      this.lost(null);
    });
    await client.connect();
    await client.query(`listen ${CHANNEL}`);
    return client;
  }

  /** Whatever is told while nobody listens is found once somebody does: everyone is woken then. */
  private lost(error: unknown): void {
    if (this.closed || this.listening === null) return;
    if (error !== null) this.log.warn({ feedConnectionLost: error instanceof Error ? error.message : 'unknown' });
    this.listening = null;
    clearTimeout(this.again);
    this.again = setTimeout(() => {
      if (this.sleepers.size === 0) return;
      void this.listen().then(() => {
        for (const ofClan of this.sleepers.values()) for (const wake of ofClan) wake();
      });
    }, TRY_AGAIN_MS).unref();
  }
}
