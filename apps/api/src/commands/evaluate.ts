import { writeFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { DomainError } from '#domain/domain-error.js';
import { evaluateForecast } from '#domain/forecast/evaluate-forecast.js';
import { readForecastSheet } from '#domain/forecast/sheet/forecast-sheet.js';
import { FORECAST_TARGETS, SIGHTS, type ForecastTarget, type Sight } from '#domain/forecast/targets.js';
import { seededRandom } from '#domain/statistics/seeded-random.js';
import { evaluationText, sheetNotesText } from '../rendering/evaluation-text.js';
import { reliabilityPlot } from '../rendering/plots/reliability-plot.js';
import { readPlayFiles } from './evaluate-files.js';
import { readMapping } from './evaluate-mapping.js';
import { CommandError, runCommand } from './fail.js';

const USAGE = `usage: npm run evaluate -- --data FILE.csv --target ${FORECAST_TARGETS.join('|')}
  --split 0.7          share of the games, in time order, to learn from
  --seen ${SIGHTS.join('|')}  what may be seen of the play itself; both when left out
  --mapping FILE.json  how other headers are to be understood
  --plot FILE.svg      where to draw the reliability; forecast-TARGET-SEEN.svg when left out
  --seed 1             of everything that is drawn
--data may be given several times, and may be JSON Lines.`;

/** Trains the forecast on the first games of a file and judges it on the rest, beside simple baselines. */
await runCommand(async () => {
  const { data, target, split, sights, mapping, plot, seed } = readOptions();
  const say = (what: string): void => {
    process.stderr.write(`${what}\n`);
  };
  const { header, rows } = await readPlayFiles(data);
  say(`${rows.length} rows read`);
  try {
    const { snaps, notes } = readForecastSheet(header, rows, mapping === undefined ? null : await readMapping(mapping));
    process.stdout.write(`${sheetNotesText(notes).join('\n')}\n\n`);
    for (const sight of sights) {
      const before = process.cpuUsage();
      const evaluation = evaluateForecast(snaps, target, sight, split, seededRandom(seed), (what) => {
        say(`${sight}: ${what}`);
      });
      const { user, system } = process.cpuUsage(before);
      process.stdout.write(`${evaluationText(evaluation)}\n`);
      const file = plot ?? `forecast-${target}-${sight}.svg`;
      const title = `${target}: forecast and frequency`;
      await writeFile(file, `${reliabilityPlot('reliability', title, evaluation.calibration.bins).text}\n`);
      say(`${sight}: ${((user + system) / 1e6).toFixed(1)} s of one core; plot in ${file}`);
    }
  } catch (error) {
    if (error instanceof DomainError && error.code.startsWith('forecast.')) throw new CommandError(error.message);
    throw error;
  }
});

function readOptions(): {
  readonly data: readonly string[];
  readonly target: ForecastTarget;
  readonly split: number;
  readonly sights: readonly Sight[];
  readonly mapping: string | undefined;
  readonly plot: string | undefined;
  readonly seed: number;
} {
  const { values } = parseArgs({
    options: {
      data: { type: 'string', multiple: true },
      target: { type: 'string' },
      split: { type: 'string', default: '0.7' },
      seen: { type: 'string' },
      mapping: { type: 'string' },
      plot: { type: 'string' },
      seed: { type: 'string', default: '1' },
    },
  });
  const target = FORECAST_TARGETS.find((name) => name === values.target);
  const split = Number(values.split);
  const seed = Number(values.seed);
  const sights = values.seen === undefined ? SIGHTS : SIGHTS.filter((name) => name === values.seen);
  const fits = split > 0 && split < 1 && Number.isInteger(seed) && seed >= 0 && sights.length > 0;
  if (values.data === undefined || target === undefined || !fits) throw new CommandError(USAGE);
  return { data: values.data, target, split, sights, mapping: values.mapping, plot: values.plot, seed };
}
