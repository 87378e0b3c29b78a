import type { Pool, PoolClient, QueryResult, QueryResultRow } from 'pg';
import { cancelWhenGone, type Asker } from './cancel-when-gone.js';
import { enteredQuery, gatherMessages, setPipeline, type PreparedStatement } from './one-message.js';

/** One statement that reads, each in a transaction of its own that enters a clan first. */
export interface Glance {
  readonly keyHash: Buffer;
  readonly statement: PreparedStatement;
  /** Whoever asked; for one that has left nothing more runs. */
  readonly asker: Asker | undefined;
}

interface Waiting extends Glance {
  readonly resolve: (result: QueryResult) => void;
  readonly reject: (error: unknown) => void;
}

/** So that one connection does not work alone while others have nothing to do. */
const MOST_TOGETHER = 16;

/**
 * Glances that come in one turn of the event loop go out on one connection as one message, since sending costs more than
 * either side's work on so little. Each is entered, answered and refused by itself: nothing of one is seen by the next.
 */
export class Glances {
  private waiting: Waiting[] = [];

  /** @param connect - to the pool; what it throws is told to whoever asked */
  constructor(
    private readonly pool: Pool,
    private readonly connect: () => Promise<PoolClient>,
  ) {}

  ask<Row extends QueryResultRow>(glance: Glance): Promise<QueryResult<Row>> {
    return new Promise((resolve, reject) => {
      if (this.waiting.length === 0) setImmediate(() => void this.send());
      // The caller names the row that its statement returns.
      this.waiting.push({ ...glance, resolve: resolve as Waiting['resolve'], reject });
    });
  }

  private async send(): Promise<void> {
    const { waiting } = this;
    this.waiting = [];
    const parts: Waiting[][] = [];
    for (let from = 0; from < waiting.length; from += MOST_TOGETHER)
      parts.push(waiting.slice(from, from + MOST_TOGETHER));
    await Promise.all(parts.map((part) => this.sendTogether(part)));
  }

  private async sendTogether(glances: readonly Waiting[]): Promise<void> {
    let client: PoolClient;
    try {
      client = await this.connect();
    } catch (error) {
      for (const { reject } of glances) reject(error);
      return;
    }
    // Of several, cancelling what runs for one may hit another's.
    const watch = cancelWhenGone(this.pool, client, glances.length === 1 ? glances[0]?.asker : undefined);
    setPipeline(client, true);
    gatherMessages(client);
    await Promise.all(
      glances.map(({ keyHash, statement, resolve, reject }) =>
        enteredQuery(client, keyHash, statement).then(resolve, reject),
      ),
    );
    await watch.end();
    client.release();
  }
}
