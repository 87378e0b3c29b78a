import { Worker } from 'node:worker_threads';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import { columnsFromPlays } from '#domain/charting/play-columns.js';
import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { callArchive } from '#domain/forecast/live/call-archive.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { CallFitting } from './call-fitting.js';

/** An archive without a play: nothing to learn, so that a fit ends at once. */
function emptyArchive(): CallArchive {
  const vocabulary = starterVocabulary();
  const plays = columnsFromPlays({ chartId: 'chart', gameId: 'game' }, []);
  const facts = classifyPlays(plays, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
  return callArchive('run-pass', facts, new Int32Array(0), vocabulary);
}

/** A thread compiles what it runs, which a busy machine takes its time for. */
jest.setTimeout(60_000);

describe('fitting on a thread of its own', () => {
  it('says what went wrong, and gives what the next one has learned all the same', async () => {
    const fitting = new CallFitting();
    const archive = emptyArchive();
    const broken = { ...archive, rows: Int32Array.from({ length: 500 }), classOf: null } as unknown as CallArchive;
    const [first, second] = [fitting.fit(broken), fitting.fit(archive)];
    await expect(first).rejects.toThrow(/null/);
    expect(await second).toEqual({ weights: archive.weights, model: null });
  });

  it('ends its thread and whatever waits when the service shuts down', async () => {
    const terminate = jest.spyOn(Worker.prototype, 'terminate');
    const fitting = new CallFitting();
    const [under, waiting] = [fitting.fit(emptyArchive()), fitting.fit(emptyArchive())];
    // Until the first of them has its thread.
    await Promise.resolve();
    await fitting.beforeApplicationShutdown();
    expect(terminate).toHaveBeenCalledTimes(1);
    expect(await Promise.all([under, waiting])).toEqual([null, null]);
    expect(await fitting.fit(emptyArchive())).toBeNull();
  });
});
