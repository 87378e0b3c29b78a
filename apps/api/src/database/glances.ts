import type { Pool, PoolClient, QueryResult, QueryResultRow } from 'pg';
import { cancelWhenGone, type Asker } from './cancel-when-gone.js';
import { enteredQuery, gatherMessages, setPipeline, singleQuery, type PreparedStatement } from './one-message.js';

/** One statement that reads, each in a transaction of its own. */
export interface Glance {
  /** Of the key whose clan is entered first; null where the statement lets in by itself. */
  readonly keyHash: Buffer | null;
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
/** While a message is on its way, those that come gather for the next: the busier, the more go together. */
const MOST_UNDER_WAY = 1;
/** A message that takes longer than this holds the next ones up no more. */
const USUAL_MS = 5;

/**
 * Glances that come in one turn of the event loop go out on one connection as one message, since sending costs more than
 * either side's work on so little. Each is entered, answered and refused by itself: nothing of one is seen by the next.
 */
export class Glances {
  private readonly waiting: Waiting[] = [];
  private underWay = 0;
  private isDue = false;

  /** @param connect - to the pool; what it throws is told to whoever asked */
  constructor(
    private readonly pool: Pool,
    private readonly connect: () => Promise<PoolClient>,
  ) {}

  ask<Row extends QueryResultRow>(glance: Glance): Promise<QueryResult<Row>> {
    return new Promise((resolve, reject) => {
      // The caller names the row that its statement returns.
      this.waiting.push({ ...glance, resolve: resolve as Waiting['resolve'], reject });
      this.sendSoon();
    });
  }

  private sendSoon(): void {
    if (this.isDue || this.waiting.length === 0 || this.underWay >= MOST_UNDER_WAY) return;
    this.isDue = true;
    setImmediate(() => {
      this.isDue = false;
      void this.send(this.waiting.splice(0, MOST_TOGETHER));
      this.sendSoon();
    });
  }

  private async send(glances: readonly Waiting[]): Promise<void> {
    let isCounted = true;
    const count = (): void => {
      if (isCounted) this.underWay -= 1;
      isCounted = false;
      this.sendSoon();
    };
    this.underWay += 1;
    const longer = setTimeout(count, USUAL_MS);
    await this.sendTogether(glances);
    clearTimeout(longer);
    count();
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
        (keyHash === null ? singleQuery(client, statement) : enteredQuery(client, keyHash, statement)).then(
          resolve,
          reject,
        ),
      ),
    );
    await watch.end();
    client.release();
  }
}
