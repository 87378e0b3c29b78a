import type { Pool } from 'pg';

/** How many statements the service sends, over whatever connection of its pool. */
export interface QueryCount {
  /** Statements that the work caused, its own beginning and end too. */
  during(work: () => Promise<unknown>): Promise<number>;
}

/** Counts on a pool whose connections were not taken yet, or are taken anew. */
export function countQueries(pool: Pool): QueryCount {
  let count = 0;
  pool.on('acquire', (client) => {
    if (COUNTED.has(client)) return;
    COUNTED.add(client);
    const { connection } = client as unknown as { connection: { query(...sent: unknown[]): void; sync(): void } };
    // Both ways in which a statement goes over the wire: as plain text, and with parameters, which ends in a sync.
    for (const way of ['query', 'sync'] as const) {
      const send = connection[way].bind(connection);
      connection[way] = (...sent: unknown[]) => {
        count += 1;
        send(...(sent as []));
      };
    }
  });
  return {
    during: async (work) => {
      const before = count;
      await work();
      // The end of a reading transaction is not waited for by its answer.
      await new Promise((resolve) => setImmediate(resolve));
      return count - before;
    },
  };
}

const COUNTED = new WeakSet<object>();
