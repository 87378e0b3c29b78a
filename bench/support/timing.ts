/** Milliseconds that the work took. */
export async function elapsedMs(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** Milliseconds that the process's threads have worked so far, collecting garbage included: other processes cost none. */
export function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** Runs both by turns, so that whatever else the machine does falls on both alike; medians in milliseconds. */
export async function compare(
  rounds: number,
  subject: () => Promise<unknown>,
  baseline: () => Promise<unknown>,
): Promise<{ readonly subjectMs: number; readonly baselineMs: number }> {
  const subjects: number[] = [];
  const baselines: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    baselines.push(await elapsedMs(baseline));
    subjects.push(await elapsedMs(subject));
  }
  return { subjectMs: median(subjects), baselineMs: median(baselines) };
}
