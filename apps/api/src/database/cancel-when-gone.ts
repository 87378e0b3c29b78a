import type { Pool, PoolClient } from 'pg';

/** As much of a stream of answers, such as one of HTTP, as tells that it was closed before its end. */
export interface Asker {
  readonly destroyed: boolean;
  readonly writableFinished: boolean;
  once(event: 'close', listener: () => void): unknown;
  off(event: 'close', listener: () => void): unknown;
}

/**
 * Cancels what runs on the connection when the asker leaves; `end` also waits until no cancelling is on its way,
 * but not for one that has no connection yet, which may be waiting for this very one.
 */
export function cancelWhenGone(
  pool: Pool,
  client: PoolClient,
  asker: Asker | undefined,
): { end(): Promise<void> | undefined } {
  if (asker === undefined) return { end: () => undefined };
  let isOver = false;
  let cancelling: Promise<void> | undefined;
  const cancelOn = (other: PoolClient): void => {
    // It may have waited for this connection until there was nothing left to cancel.
    if (isOver) {
      other.release();
      return;
    }
    const processId = 'processID' in client ? client.processID : null;
    cancelling = other.query('select pg_cancel_backend($1::int)', [processId]).then(
      () => {
        other.release();
      },
      () => {
        other.release(true);
      },
    );
  };
  const cancel = (): void => {
    if (asker.writableFinished) return;
    void pool.connect().then(cancelOn, () => undefined);
  };
  if (asker.destroyed) cancel();
  else asker.once('close', cancel);
  return {
    end: () => {
      asker.off('close', cancel);
      isOver = true;
      return cancelling;
    },
  };
}
