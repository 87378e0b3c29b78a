import { starterVocabulary } from '../charting/vocabulary.js';
import { bandsByDistance, coverageOf, meanSquaredError } from './testing/coverage.js';
import {
  AS_IN_LIFE,
  plantedShares,
  profilesWithFinds,
  shareCells,
  type ListedCell,
  type ShareRun,
} from './testing/share-figures.js';

// Fifty leagues for each question, every parameter drawn anew from a seed that nothing else uses. The figures are
// printed; the limits stand where they were promised, and a missed one says by how much.

const VOCABULARY = starterVocabulary();
/** The same leagues wherever this file runs, and no other test's. */
const FIFTY = { leagues: 50, firstSeed: 70_000 };

const run = (settings: Partial<ShareRun['settings']>, judged: readonly number[]): ShareRun => ({
  ...FIFTY,
  settings: { ...AS_IN_LIFE, ...settings },
  judged,
});

const monteCarloError = (share: number, trials: number): number => Math.sqrt((share * (1 - share)) / trials);
const toldOf = (share: number, trials: number): string =>
  `${share.toFixed(3)} ± ${monteCarloError(share, trials).toFixed(3)}`;

const figures: string[] = [];
afterAll(() => {
  console.log(figures.join('\n'));
});

describe('in a league that is as the model says', () => {
  const { listed } = shareCells(run({}, [0, 8, 16]), VOCABULARY);
  const coverage = coverageOf(listed, ({ inShrunk }) => inShrunk).share;

  it('the 90 % posterior intervals cover 88 to 92 % of the cells', () => {
    figures.push(
      `well specified: ${listed.length} cells, posterior covers ${coverage.toFixed(3)}, raw ${coverageOf(listed, ({ inRaw }) => inRaw).share.toFixed(3)}`,
      `  by distance of truth from the field: ${coverageByDistance(listed)}`,
    );
    expect(coverage).toBeGreaterThanOrEqual(0.88);
    expect(coverage).toBeLessThanOrEqual(0.92);
  });

  it('shrunk shares are nearer to the truth than raw ones and than the field', () => {
    const [shrunk, raw, field] = [
      meanSquaredError(listed, (cell) => cell.shrunk),
      meanSquaredError(listed, (cell) => cell.raw),
      meanSquaredError(listed, (cell) => cell.field),
    ];
    figures.push(
      `  mean squared error x 10^4: shrunk ${tenThousandths(shrunk)}, raw ${tenThousandths(raw)}, field ${tenThousandths(field)}`,
    );
    expect(shrunk).toBeLessThan(raw);
    expect(shrunk).toBeLessThan(field);
  });
});

describe('in a league with 15 % specialists', () => {
  it('the 90 % posterior intervals still cover 86 to 94 % of the cells', () => {
    const { listed } = shareCells(run({ specialists: 0.15 }, [0, 8, 16]), VOCABULARY);
    const coverage = coverageOf(listed, ({ inShrunk }) => inShrunk).share;
    figures.push(
      `15 % specialists: posterior covers ${coverage.toFixed(3)}`,
      `  by distance of truth from the field: ${coverageByDistance(listed)}`,
    );
    expect(coverage).toBeGreaterThanOrEqual(0.86);
    expect(coverage).toBeLessThanOrEqual(0.94);
  });
});

describe('a habit of +25 points in one of the commonest situations', () => {
  it.each([
    { games: 4, established: 0.2, among: 0.6 },
    { games: 8, established: 0.55, among: 0.8 },
  ])('after $games games is established at least at $established and in the top ten at $among', (expected) => {
    const planted = run({ games: expected.games, concentration: 60, planted: 0.25 }, [3, 13]);
    const found = plantedShares(planted, VOCABULARY);
    const established = found.established / found.profiles;
    const among = found.topTen / found.profiles;
    figures.push(
      `planted +25, ${expected.games} games: established ${toldOf(established, found.profiles)}, top ten ${toldOf(among, found.profiles)} of ${found.profiles}`,
    );
    expect(established + 2 * monteCarloError(established, found.profiles)).toBeGreaterThan(expected.established);
    expect(among + 2 * monteCarloError(among, found.profiles)).toBeGreaterThan(expected.among);
  });
});

describe('in a league where all players are alike', () => {
  it.each([
    { kind: 'without game plans', gameConcentration: Number.POSITIVE_INFINITY },
    { kind: 'with game plans', gameConcentration: 30 },
  ])('$kind, at most one profile in twenty has a share called established', ({ kind, gameConcentration }) => {
    const alike = run({ concentration: Number.POSITIVE_INFINITY, gameConcentration }, [2, 12]);
    const { profiles, withFinds } = profilesWithFinds(alike, VOCABULARY);
    const withAny = withFinds / profiles;
    figures.push(`null ${kind}: a false find in ${toldOf(withAny, profiles)} of ${profiles} profiles`);
    expect(withAny).toBeLessThanOrEqual(0.05);
  });
});

function coverageByDistance(cells: readonly ListedCell[]): string {
  return bandsByDistance(cells, [0, 0.05, 0.1, 0.15, 0.2])
    .map(({ from, cells: inside }) => {
      const covered = coverageOf(inside, ({ inShrunk }) => inShrunk).share;
      const either = coverageOf(inside, ({ inShrunk, inRaw }) => inShrunk || inRaw).share;
      return `${from}: ${covered.toFixed(2)} (${either.toFixed(2)} with the raw one, n ${inside.length})`;
    })
    .join('; ');
}

function tenThousandths(value: number): string {
  return (value * 1e4).toFixed(1);
}
