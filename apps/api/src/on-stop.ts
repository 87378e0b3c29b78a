/** Stops in order once, at Ctrl-C or when told to end; a second Ctrl-C does not wait. */
export function onStop(stop: () => Promise<void>): void {
  let stopping = false;
  const once = (): void => {
    if (stopping) process.exit(1);
    stopping = true;
    void stop().then(
      () => process.exit(0),
      (error: unknown) => {
        process.stderr.write(`stopping failed: ${String(error)}\n`);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', once);
  process.on('SIGTERM', once);
}
