import { parentPort, workerData } from 'node:worker_threads';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import { fitCalls } from '#domain/forecast/live/fit-calls.js';

/** A thread of its own for one fit: it is given an archive, answers with what it learned, and ends. */
parentPort?.postMessage(fitCalls(workerData as CallArchive));
