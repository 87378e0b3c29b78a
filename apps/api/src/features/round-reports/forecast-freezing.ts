import { Injectable, Logger, type BeforeApplicationShutdown } from '@nestjs/common';
import type { FreezingTask, FrozenForecast } from '#domain/forecast/frozen/freeze-forecast.js';
import { forecastTable, type PlannedForecast } from '#domain/reports/predictions/forecast-tables.js';
import type { ForecastTable } from '#domain/reports/predictions/predictions-shape.js';
import { ThreadQueue } from '../../common/thread-queue.js';

/**
 * Works out the forecasts that a report freezes, away from the thread that answers requests. It never takes what was
 * fitted for a question about the next call: a report is to say the same whoever asked what before.
 */
@Injectable()
export class ForecastFreezing implements BeforeApplicationShutdown {
  private readonly logger = new Logger(ForecastFreezing.name);
  private readonly queue = new ThreadQueue<readonly FreezingTask[], (FrozenForecast | null)[]>(
    new URL('./freeze-forecasts.worker', import.meta.url),
  );

  /** @returns never rejects; null where none could be fitted: a report without its forecast is better than none before a round */
  async freeze(planned: readonly PlannedForecast[]): Promise<ForecastTable[] | null> {
    if (planned.length === 0) return [];
    try {
      const frozen = await this.queue.run(planned.map(({ task }) => task));
      return frozen === null ? null : planned.flatMap((plan, place) => forecastTable(plan, frozen[place] ?? null));
    } catch (error) {
      this.logger.error('no forecast could be fitted for a report; it is made without', error);
      return null;
    }
  }

  beforeApplicationShutdown(): Promise<void> {
    return this.queue.close();
  }
}
