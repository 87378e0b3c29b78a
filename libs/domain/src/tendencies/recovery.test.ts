import { starterVocabulary } from '../charting/vocabulary.js';
import { coverageOf, decilesByDistance, meanSquaredError } from './testing/coverage.js';
import {
  AS_IN_LIFE,
  plantedShares,
  profilesWithFinds,
  shareCells,
  type ListedCell,
  type ShareRun,
} from './testing/share-figures.js';

// Dozens of leagues for each question, every parameter drawn anew from a seed that nothing else uses. The figures are
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

describe.each([
  { kind: 'a league that is as the model says', settings: {} },
  { kind: 'a league with 15 % specialists', settings: { specialists: 0.15 } },
  {
    kind: 'a league with specialists, game plans and drift',
    settings: { specialists: 0.15, gameConcentration: 30, driftConcentration: 20 },
  },
])('in $kind', ({ kind, settings }) => {
  const { listed } = shareCells({ ...run(settings, [0, 8, 16]), leagues: 25 }, VOCABULARY);
  const inShrunk = ({ inShrunk: isInside }: ListedCell): boolean => isInside;

  it('the 90 % intervals of shrunk shares cover 88 to 92 % of the cells', () => {
    const { share, error } = coverageOf(listed, inShrunk);
    figures.push(`${kind}: ${listed.length} cells, shrunk covers ${share.toFixed(3)} ± ${error.toFixed(3)}`);
    // 25 leagues: what lies outside by less than two standard errors may lie inside.
    expect(share).toBeGreaterThanOrEqual(0.88 - 2 * error);
    expect(share).toBeLessThanOrEqual(0.92 + 2 * error);
  });

  it('they cover at least 80 % in each tenth of the distances from the field', () => {
    const deciles = decilesByDistance(listed).map(({ cells }) => coverageOf(cells, inShrunk).share);
    figures.push(`  by decile of distance from the field: ${deciles.map((share) => share.toFixed(2)).join(' ')}`);
    expect(Math.min(...deciles)).toBeGreaterThanOrEqual(0.8);
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

function tenThousandths(value: number): string {
  return (value * 1e4).toFixed(1);
}
