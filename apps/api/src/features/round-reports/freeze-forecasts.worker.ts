import { parentPort, workerData } from 'node:worker_threads';
import { freezeForecast, type FreezingTask } from '#domain/forecast/frozen/freeze-forecast.js';

/** A thread of its own for the forecasts of one report. */
parentPort?.postMessage((workerData as readonly FreezingTask[]).map(freezeForecast));
