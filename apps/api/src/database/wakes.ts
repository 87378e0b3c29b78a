import { Inject, Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { Client, type Pool } from 'pg';
import { SERVICE_POOL } from './clan-transaction.js';

export const FEED_CHANNEL = 'roundbook_feed';
const TRY_AGAIN_MS = 1_000;

/** What is told beside the clans' feeds, each of which is known by its clan. */
export const DELIVERIES = 'deliveries';

/**
 * Wakes whoever waits for something that the database tells: that a clan's feed has an entry more, or that something is to
 * be delivered. One connection for the whole process, and none while nobody waits. A wake carries nothing: what there is
 * to read is asked for under each reader's own rights.
 */
@Injectable()
export class Wakes implements OnApplicationShutdown {
  private readonly log = new Logger(Wakes.name);
  private readonly sleepers = new Map<string, Set<() => void>>();
  private listening: Promise<Client> | null = null;
  private again: NodeJS.Timeout | undefined;
  private closed = false;

  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {}

  /** @returns how to sleep for ever; nothing that is told from now on goes unheard until then */
  async subscribe(topic: string, wake: () => void): Promise<() => void> {
    const ofTopic = this.sleepers.get(topic) ?? new Set();
    this.sleepers.set(topic, ofTopic.add(wake));
    await this.listen();
    return () => {
      ofTopic.delete(wake);
      if (ofTopic.size === 0 && this.sleepers.get(topic) === ofTopic) this.sleepers.delete(topic);
    };
  }

  /** How many wait for it. */
  count(topic: string): number {
    return this.sleepers.get(topic)?.size ?? 0;
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
    await client.query(`listen ${FEED_CHANNEL}`);
    return client;
  }

  /** Whatever is told while nobody listens is found once somebody does: everyone is woken then. */
  private lost(error: unknown): void {
    if (this.closed || this.listening === null) return;
    if (error !== null) this.log.warn({ listeningLost: error instanceof Error ? error.message : 'unknown' });
    this.listening = null;
    clearTimeout(this.again);
    this.again = setTimeout(() => {
      if (this.sleepers.size === 0) return;
      void this.listen().then(() => {
        for (const ofTopic of this.sleepers.values()) for (const wake of ofTopic) wake();
      });
    }, TRY_AGAIN_MS).unref();
  }
}
