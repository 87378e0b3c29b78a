import { chartedFacts, times, type ChartedRow } from '../tendencies/charted-rows.js';
import { MECHANISM_LEVEL, mechanismFlags, mechanisms, type Mechanism } from './mechanisms.js';
import { rosterFit } from './roster-fit.js';
import { mechanismsFound, type FoundMechanisms } from './testing/mechanism-league.js';

const snap = (more: ChartedRow): ChartedRow => ({ down: 1, distance: 10, snapResult: 'snapResult.rushed', ...more });
const forced = snap({ offDesign: 'forced by a set edge', yardsGained: 0 });
const free = snap({ offDesign: 'no', yardsGained: 5 });

/** The first `own` plays of each game met the answer, the others another one. */
function of(games: readonly (readonly ChartedRow[])[], own: number): Mechanism[] {
  const facts = chartedFacts(...games);
  const all = Int32Array.from(facts.counts.keys());
  const isOwn = (play: number): boolean => (facts.plays.playNumber[play] ?? 0) <= own;
  const byGame = { of: facts.plays.chartIndex, clusters: facts.plays.charts.length };
  const [found = []] = mechanisms([byGame], mechanismFlags(facts), all, [all.filter(isOwn)], {
    confidence: 0.9,
    level: MECHANISM_LEVEL,
  });
  return found;
}
const named = (found: readonly Mechanism[], name: string): Mechanism | undefined =>
  found.find((one) => one.name === name);

describe('what went with an answer', () => {
  it('is counted with it and without it, unknown nowhere', () => {
    const game = [forced, forced, snap({ yardsGained: 3 }), free, free, forced];
    const found = named(of([game, game], 3), 'forced off the design');
    expect(found).toMatchObject({ with: { count: 4, known: 4 }, without: { count: 2, known: 6 } });
    expect(found?.difference?.lower).toBeGreaterThan(0);
    expect(named(of([game, game], 3), 'free rusher')).toBeUndefined();
  });

  it('is established where it is always so in many games, and not where it never differs', () => {
    const games = Array.from({ length: 6 }, () => [...times(3, forced), ...times(3, free)]);
    expect(named(of(games, 3), 'forced off the design')?.established).toBe(true);
    const alike = Array.from({ length: 6 }, () => [forced, free, forced, free]);
    const same = named(of(alike, 2), 'forced off the design');
    expect(same).toMatchObject({ established: false, with: { count: 6, known: 12 }, without: { count: 6, known: 12 } });
    expect(same?.pValue).toBeCloseTo(1, 9);
  });

  it('has no p-value from a single game, whose plays share a defense and a day', () => {
    const found = named(of([[...times(5, forced), ...times(5, free)]], 5), 'forced off the design');
    expect(found).toMatchObject({ pValue: null, established: false });
  });

  // Fisher's exact test by hand: 4 of 4 against 0 of 4 has probability 1 / C(8, 4) = 1 / 70, two-sided 2 / 70.
  it("is no surer than Fisher's exact test where plays are few", () => {
    const games = [1, 2].map(() => [...times(2, forced), ...times(2, free)]);
    expect(named(of(games, 2), 'forced off the design')?.pValue).toBeGreaterThanOrEqual(2 / 70 - 1e-12);
  });
});

describe('in leagues in which no answer brings anything', () => {
  // Larger runs: npm run bench -- calibration answers, in docs/reference/calibration.md.
  const found = (players: number, planted: number, leagues: number, firstSeed: number): FoundMechanisms[] =>
    Array.from({ length: leagues }, (_, at) =>
      mechanismsFound({ games: 400, snaps: 30, day: 0.2, players, planted, seed: firstSeed + at }),
    );

  it('hardly anything is established, though each player defends in fifty games', () => {
    const wrong = found(0.6, 0, 8, 7_000).filter((one) => one.wrong > 0);
    // Were only games clusters, it would be seven.
    expect(wrong.length).toBeLessThanOrEqual(1);
  });

  it('one that is planted is', () => {
    expect(found(0.3, 0.15, 6, 8_000).filter((one) => one.found).length).toBeGreaterThanOrEqual(5);
  });
});

describe('results by strength of a unit', () => {
  const facts = chartedFacts([...times(4, snap({ yardsGained: 6 })), ...times(4, snap({ yardsGained: 1 }))]);
  const places = Int32Array.from(facts.counts.keys());
  const split = (grade: (play: number) => number) =>
    rosterFit(
      facts,
      places,
      (play, side) => (side === 'defense' ? new Map([['linebackers', grade(play)]]) : null),
      0.9,
    );

  it('are split below and above the middle of the scale', () => {
    const [weak, strong] = split((play) => (play < 4 ? 0.25 : 0.75));
    expect(weak).toMatchObject({ side: 'defense', unit: 'linebackers', strength: 'weak' });
    expect(weak?.results).toMatchObject({ trials: 4, successes: 4 });
    expect(strong).toMatchObject({ strength: 'strong' });
    expect(strong?.results).toMatchObject({ trials: 4, successes: 0 });
    expect(strong?.evidence.places()).toEqual([4, 5, 6, 7]);
  });

  it('leave out the middle, and units that are held against nothing', () => {
    const [weak, strong] = split((play) => [0, 0.5, 1, 0.5][play % 4] ?? 0);
    expect([weak?.results.trials, strong?.results.trials]).toEqual([2, 2]);
    expect(split(() => 0.2)).toEqual([]);
    expect(split(() => 0.5)).toEqual([]);
  });
});
