import { writeFile } from 'node:fs/promises';
import { playField, type PlayFieldName } from '#domain/charting/play-fields.js';
import { targetOf } from '#domain/charting/sheet-mapping.js';
import { DomainError } from '#domain/domain-error.js';
import { evaluateForecast } from '#domain/forecast/evaluate-forecast.js';
import { readForecastSheet, usedColumns } from '#domain/forecast/sheet/forecast-sheet.js';
import { FORECAST_TARGETS, SIGHTS, type ForecastTarget, type Sight } from '#domain/forecast/targets.js';
import { seededRandom } from '#domain/statistics/seeded-random.js';
import { evaluationText, sheetNotesText } from '../rendering/evaluation-text.js';
import { reliabilityPlot } from '../rendering/plots/reliability-plot.js';
import { readPlayFiles } from './evaluate-files.js';
import { readMapping } from './evaluate-mapping.js';
import { CommandError, runCommand, type Given } from './run-command.js';

const USAGE = `usage: npm run evaluate -- --data FILE.csv --target ${FORECAST_TARGETS.join('|')}
  --split 0.7          share of the games, in time order, to learn from
  --seen ${SIGHTS.join('|')}  what may be seen of the play itself; both when left out
  --without FIELD,...  fields that are taken not to be there, such as formation,boxCount
  --mapping FILE.json  how other headers are to be understood
  --plot FILE.svg      where to draw the reliability; forecast-TARGET-SEEN.svg when left out
  --seed 1             of everything that is drawn
--data may be given several times, and may be JSON Lines.`;

const OPTIONS = {
  data: { type: 'string', multiple: true },
  target: { type: 'string' },
  split: { type: 'string', default: '0.7' },
  seen: { type: 'string' },
  without: { type: 'string', multiple: true },
  mapping: { type: 'string' },
  plot: { type: 'string' },
  seed: { type: 'string', default: '1' },
} as const;

/** Trains the forecast on the first games of a file and judges it on the rest, beside simple baselines. */
await runCommand({ usage: USAGE, options: OPTIONS }, async ({ values }) => {
  const { data, target, split, sights, hidden, mapping: mappingFile, plot, seed } = readOptions(values);
  const say = (what: string): void => {
    process.stderr.write(`${what}\n`);
  };
  const mapping = mappingFile === undefined ? null : await readMapping(mappingFile);
  const { header, rows } = await readPlayFiles(data, (names) => usedColumns(names, mapping));
  say(`${rows.length} rows read`);
  try {
    const { snaps, notes } = readForecastSheet(header, rows, mapping, hidden);
    process.stdout.write(`${sheetNotesText(notes).join('\n')}\n\n`);
    for (const sight of sights) {
      const before = process.cpuUsage();
      const evaluation = evaluateForecast(snaps, target, sight, split, seededRandom(seed), (what) => {
        say(`${sight}: ${what}`);
      });
      const { user, system } = process.cpuUsage(before);
      process.stdout.write(`${evaluationText(evaluation)}\n`);
      say(`${sight}: ${((user + system) / 1e6).toFixed(1)} s of one core`);
      const file = plotFile(plot, sights.length, target, sight);
      const title = `${target}: forecast and frequency`;
      const { text } = reliabilityPlot('reliability', title, evaluation.calibration.bins);
      // A place that cannot be written to costs the plot, not the figures.
      const written = await writeFile(file, `${text}\n`).then(() => `plot in ${file}`, asWords);
      say(`${sight}: ${written}`);
    }
  } catch (error) {
    if (error instanceof DomainError && error.code.startsWith('forecast.')) throw new CommandError(error.message);
    throw error;
  }
});

/** With two sights each has a file of its own. */
function plotFile(plot: string | undefined, sights: number, target: ForecastTarget, sight: Sight): string {
  if (plot === undefined) return `forecast-${target}-${sight}.svg`;
  return sights === 1 ? plot : `${plot.replace(/\.svg$/, '')}-${sight}.svg`;
}

function asWords(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function readOptions(values: Given<typeof OPTIONS>['values']): {
  readonly data: readonly string[];
  readonly target: ForecastTarget;
  readonly split: number;
  readonly sights: readonly Sight[];
  readonly hidden: ReadonlySet<PlayFieldName>;
  readonly mapping: string | undefined;
  readonly plot: string | undefined;
  readonly seed: number;
} {
  const target = FORECAST_TARGETS.find((name) => name === values.target);
  const split = Number(values.split);
  const seed = Number(values.seed);
  const sights = values.seen === undefined ? SIGHTS : SIGHTS.filter((name) => name === values.seen);
  const fits = split > 0 && split < 1 && Number.isInteger(seed) && seed >= 0 && sights.length > 0;
  if (values.data === undefined || target === undefined || !fits) throw new CommandError(USAGE);
  const hidden = new Set(
    (values.without ?? []).flatMap((list) => list.split(',')).map((name) => hiddenField(name.trim())),
  );
  return { data: values.data, target, split, sights, hidden, mapping: values.mapping, plot: values.plot, seed };
}

/** Nobody's own name for a field is asked for here, so one that is no field is a slip. */
function hiddenField(name: string): PlayFieldName {
  const to = playField(targetOf(name) ?? '');
  if (to !== undefined && to.name !== 'playType') return to.name;
  throw new CommandError(`--without: "${name}" is no field that can be left out; fields are named as in the import`);
}
