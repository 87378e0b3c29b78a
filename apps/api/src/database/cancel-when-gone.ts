import type { Pool, PoolClient } from 'pg';

/** As much of a stream of answers, such as one of HTTP, as tells that it was closed before its end. */
export interface Asker {
  readonly destroyed: boolean;
  readonly writableFinished: boolean;
  once(event: 'close', listener: () => void): unknown;
  off(event: 'close', listener: () => void): unknown;
}

/** Cancels what runs on the connection when the asker leaves; `end` also waits until no cancelling is on its way. */
export function cancelWhenGone(
  pool: Pool,
  client: PoolClient,
  asker: Asker | undefined,
): { end(): Promise<void> | undefined } {
  if (asker === undefined) return { end: () => undefined };
  let cancelling: Promise<void> | undefined;
  const cancel = (): void => {
    if (asker.writableFinished) return;
    const processId = 'processID' in client ? client.processID : null;
    cancelling = pool.query('select pg_cancel_backend($1::int)', [processId]).then(
      () => undefined,
      () => undefined,
    );
  };
  if (asker.destroyed) cancel();
  else asker.once('close', cancel);
  return {
    end: () => {
      asker.off('close', cancel);
      return cancelling;
    },
  };
}
