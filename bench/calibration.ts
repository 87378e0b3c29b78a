import { calibrateAnswers } from './calibration-answers.js';
import { calibrateReports } from './calibration-reports.js';
import { calibrateShares } from './calibration-shares.js';
import { calibrateTells } from './calibration-tells.js';
import { calibrateTrends } from './calibration-trends.js';

const PARTS: Readonly<Record<string, () => boolean | Promise<boolean>>> = {
  answers: calibrateAnswers,
  reports: calibrateReports,
  shares: calibrateShares,
  tells: calibrateTells,
  trends: calibrateTrends,
};

/**
 * Whether the statistics keep their promises on leagues whose truth is known; docs/reference/calibration.md holds what
 * it printed.
 *
 * @param names - the parts to run; all when empty
 * @returns whether every stated target was met
 * @throws Error when there is no such part
 */
export async function benchCalibration(names: readonly string[]): Promise<boolean> {
  const asked = names.length === 0 ? Object.keys(PARTS) : names;
  const parts = asked.flatMap((name) => PARTS[name] ?? []);
  if (parts.length < asked.length) {
    throw new Error(`calibration has the parts ${Object.keys(PARTS).join(' and ')}, not ${asked.join(' and ')}`);
  }
  let met = true;
  for (const [place, part] of parts.entries()) {
    if (place > 0) console.log('');
    met = (await part()) && met;
  }
  return met;
}
