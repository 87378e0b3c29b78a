import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { clopperPearsonInterval } from '#domain/statistics/clopper-pearson-interval.js';
import { coverageOf, decilesByDistance, meanSquaredError, type Coverage } from '#domain/tendencies/testing/coverage.js';
import {
  AS_IN_LIFE,
  CONFIDENCE,
  plantedShares,
  profilesWithFinds,
  shareCells,
  type ListedCell,
  type ShareRun,
} from '#domain/tendencies/testing/share-figures.js';
import { percent } from './support/false-finds.js';

const VOCABULARY = starterVocabulary();
const LEAGUES = { coverage: 200, null: 400, planted: 100 };
/** Of the players, whose profiles are judged: three in a league, and one where leagues are counted. */
const THREE = [0, 8, 16];
const ONE = [5];
const TWO = [3, 13];

/** Weight in plays by which one game's plan departs from the player's habits. */
const PLANS = 30;
/** Weight in plays by which the last game's habits depart from the first's. */
const DRIFT = 20;
/** Players in leagues with planted habits lie nearer to the field, so that what was planted stands out. */
const ALIKE_BUT_FOR_THE_PLANTED = 60;

const AVERAGE = { least: 0.88, most: 0.92 };
const DECILE_FLOOR = 0.8;
const LEAST_RAW = 0.88;
const SETTLED = 10;
const MOST_FALSE_PROFILES = 0.05;

interface Kind {
  readonly name: string;
  readonly firstSeed: number;
  readonly settings: Partial<ShareRun['settings']>;
}

const KINDS: readonly Kind[] = [
  { name: 'well specified', firstSeed: 5_000_000, settings: {} },
  { name: '15 % specialists', firstSeed: 5_100_000, settings: { specialists: 0.15 } },
  { name: 'game plans', firstSeed: 5_200_000, settings: { gameConcentration: PLANS } },
  {
    name: 'drift within the season',
    firstSeed: 5_300_000,
    settings: { driftConcentration: DRIFT },
  },
  {
    name: 'all three at once',
    firstSeed: 5_400_000,
    settings: { specialists: 0.15, gameConcentration: PLANS, driftConcentration: DRIFT },
  },
];

/**
 * Shares on leagues with known truth: how often intervals hold it, on average and by its distance from the field; how
 * near shrunk shares come; what is found where there is nothing, and of what was planted. Seeds are fixed and nobody
 * else's.
 *
 * @returns whether every stated target was met
 */
export function calibrateShares(): boolean {
  const { players, games, snaps } = AS_IN_LIFE;
  console.log(
    `Shares, leagues of ${players} players with ${games} games of ${snaps.join(' to ')} snaps; ` +
      `${LEAGUES.coverage} leagues for coverage, ${LEAGUES.null} null, ${LEAGUES.planted} a planted habit`,
  );
  const targets = [...KINDS.map(printCoverage), printNull(), printPlanted()];
  return targets.every(Boolean);
}

function printCoverage({ name, firstSeed, settings }: Kind): boolean {
  const run = { settings: { ...AS_IN_LIFE, ...settings }, leagues: LEAGUES.coverage, firstSeed, judged: THREE };
  const { all, listed } = shareCells(run, VOCABULARY);
  console.log(`\n${name}`);

  const whole = coverageOf(listed, ({ inShrunk }) => inShrunk);
  const few = coverageOf(
    listed.filter(({ known }) => known < SETTLED),
    ({ inShrunk }) => inShrunk,
  );
  console.log(
    `  shrunk interval covers ${told(whole)}; n below ${SETTLED} ${told(few)} (target ${AVERAGE.least} to ${AVERAGE.most})`,
  );
  const width = (pick: (cell: ListedCell) => number): string =>
    ((listed.reduce((sum, cell) => sum + pick(cell), 0) / listed.length) * 100).toFixed(1);
  console.log(
    `  mean width in points: shrunk ${width(({ widths }) => widths.shrunk)}, raw ${width(({ widths }) => widths.raw)}`,
  );

  const settled = coverageOf(
    all.filter(({ known }) => known >= SETTLED),
    ({ inRaw }) => inRaw,
  );
  const seen = coverageOf(
    all.filter(({ known, count }) => known >= SETTLED && count > 0),
    ({ inRaw }) => inRaw,
  );
  console.log(
    `  Wilson covers, n from ${SETTLED}, every value seen or not: ${told(settled)} (target ${LEAST_RAW}); ` +
      `seen values only: ${told(seen)}`,
  );

  const errors = [
    meanSquaredError(listed, ({ shrunk }) => shrunk),
    meanSquaredError(listed, ({ raw }) => raw),
    meanSquaredError(listed, ({ field }) => field),
  ] as const;
  const [shrunk, raw, field] = errors.map((error) => (error * 1e4).toFixed(1));
  console.log(`  mean squared error x 10,000: shrunk ${shrunk}, raw ${raw}, field ${field}`);

  const isFloorMet = printDeciles(listed);
  const isAverageMet = [whole, few].every(({ share }) => share >= AVERAGE.least && share <= AVERAGE.most);
  const isNearest = errors[0] < errors[1] && errors[0] < errors[2];
  return isFloorMet && settled.share >= LEAST_RAW && isNearest && isAverageMet;
}

function printDeciles(listed: readonly ListedCell[]): boolean {
  console.log('  decile of |truth - field|, points   shrunk covers      raw covers');
  const below = decilesByDistance(listed).map(({ from, to, cells }, decile) => {
    const shrunk = coverageOf(cells, ({ inShrunk }) => inShrunk);
    const raw = coverageOf(cells, ({ inRaw }) => inRaw);
    const distance = `${(from * 100).toFixed(1)} to ${(to * 100).toFixed(1)}`;
    console.log(
      `  ${String(decile + 1).padStart(6)} ${distance.padStart(26)} ${told(shrunk).padStart(15)} ${told(raw).padStart(15)}`,
    );
    return shrunk.share < DECILE_FLOOR;
  });
  const missed = below.filter(Boolean).length;
  console.log(`  target: every decile at least ${DECILE_FLOOR.toFixed(2)}; missed in ${missed} of 10`);
  return missed === 0;
}

function printNull(): boolean {
  console.log('\nall players alike: profiles with anything established, one profile a league');
  const met = [
    { name: 'no plans', firstSeed: 5_500_000, gameConcentration: Number.POSITIVE_INFINITY },
    { name: 'a plan for each game', firstSeed: 5_600_000, gameConcentration: PLANS },
  ].map(({ name, firstSeed, gameConcentration }) => {
    const settings = { ...AS_IN_LIFE, concentration: Number.POSITIVE_INFINITY, gameConcentration };
    const { profiles, withFinds } = profilesWithFinds(
      { settings, leagues: LEAGUES.null, firstSeed, judged: ONE },
      VOCABULARY,
    );
    const { upper } = clopperPearsonInterval(withFinds, profiles, CONFIDENCE);
    console.log(`  ${name}: ${withFinds} of ${profiles}, upper 95 % bound ${percent(upper)}`);
    return upper <= MOST_FALSE_PROFILES;
  });
  console.log(`  target: upper bound at most ${percent(MOST_FALSE_PROFILES)}`);
  return met.every(Boolean);
}

function printPlanted(): boolean {
  console.log('\nplanted habit, one a player in one of the three commonest situations (no target: printed)');
  console.log('  points   games   profiles   established   among the first ten');
  for (const [size, planted] of [0.15, 0.25, 0.35].entries()) {
    for (const [length, games] of [2, 4, 8].entries()) {
      const settings = { ...AS_IN_LIFE, concentration: ALIKE_BUT_FOR_THE_PLANTED, planted, games };
      const firstSeed = 5_700_000 + 10_000 * (3 * size + length);
      const found = plantedShares({ settings, leagues: LEAGUES.planted, firstSeed, judged: TWO }, VOCABULARY);
      const share = (count: number): string => withBinomialError(count, found.profiles);
      console.log(
        `  ${(planted * 100).toFixed(0).padStart(6)} ${String(games).padStart(7)} ${String(found.profiles).padStart(10)} ` +
          `${share(found.established).padStart(13)} ${share(found.topTen).padStart(21)}`,
      );
    }
  }
  return true;
}

function withBinomialError(count: number, of: number): string {
  const share = count / of;
  return `${share.toFixed(2)} ± ${Math.sqrt((share * (1 - share)) / of).toFixed(2)}`;
}

function told({ share, error, cells }: Coverage): string {
  return cells === 0 ? 'no cells' : `${share.toFixed(3)} ± ${error.toFixed(3)}`;
}
