import { times, type ChartedRow } from '../tendencies/charted-rows.js';
import { resultWords, shareWords } from './claim-words.js';
import { nineOfTwelve, reportInput } from './report-sample.js';
import { assembleRoundReport, type RoundReportInput } from './round-report.js';
import type { RoundReport, ShareClaim } from './round-report-shape.js';

const CONCEPTS = ['concept.mesh', 'concept.power', 'concept.slants', 'concept.counter'];
const FORMATIONS = ['formation.bunch', 'formation.pro', 'formation.twins'];
const COVERAGES = ['coverage.cover-1', 'coverage.cover-3', 'coverage.cover-4'];

/** A usual sample: four games of forty snaps, half filled. */
function usualSample(): RoundReportInput {
  const game = (number: number): ChartedRow[] =>
    Array.from({ length: 40 }, (_, snap): ChartedRow => {
      const place = snap + number;
      return {
        down: 1 + (snap % 3),
        distance: 10 - 3 * (snap % 3),
        yardsToGoal: 75 - snap,
        called: place % 3 === 0 ? 'run' : 'pass',
        yardsGained: place % 7,
        snapResult: place % 3 === 0 ? 'snapResult.rushed' : 'snapResult.complete',
        snapSecond: 30 * snap,
        formation: FORMATIONS[place % FORMATIONS.length] ?? '',
        coverage: COVERAGES[place % COVERAGES.length] ?? '',
        ...(place % 2 === 0 && { concept: CONCEPTS[place % CONCEPTS.length] ?? '', rushers: 4 }),
      };
    });
  const games = [0, 1, 2, 3].map(game);
  return reportInput(games, games, [10, 11, 12, 13, 14, 15].map(game));
}

const claimsOf = ({ offense, defense }: RoundReport): ShareClaim[] =>
  [offense, defense].flatMap(({ mostUsed, bySituation, standsOut }) => [
    ...mostUsed,
    ...bySituation.flatMap(({ claims }) => claims),
    ...standsOut.map(({ claim }) => claim),
  ]);

describe('a round report', () => {
  const report = assembleRoundReport(usualSample());

  it('survives JSON unchanged: no typed array, no NaN, nothing left out', () => {
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  it('says ten shares and more on a usual sample, each with counts, an interval and its plays', () => {
    const claims = claimsOf(report);
    expect(claims.length).toBeGreaterThanOrEqual(10);
    for (const claim of claims) {
      expect(claim.plays).toHaveLength(claim.count);
      expect(claim.share).toBeCloseTo(claim.count / claim.known, 12);
      expect(claim.interval.lower).toBeLessThanOrEqual(claim.share);
      expect(claim.interval.upper).toBeGreaterThanOrEqual(claim.share);
    }
  });

  it('gives one id to one claim, wherever it stands', () => {
    const byId = new Map<string, ShareClaim>();
    for (const claim of claimsOf(report)) expect(byId.get(claim.id) ?? claim).toEqual(claim);
  });

  it('is the same whenever it is made again', () => {
    expect(assembleRoundReport(usualSample())).toEqual(report);
  });

  it('names ids and no handle', () => {
    expect(report).toMatchObject({ formatVersion: 2, playerId: 'player-1', eventId: 'event-1', seed: 7 });
  });

  it('lists at most ten plays to watch, over all games, each evidence of a claim', () => {
    const results = [report.offense, report.defense].flatMap(({ strong, weak }) => [...strong, ...weak]);
    const byId = new Map([...claimsOf(report), ...results].map((claim) => [claim.id, claim]));
    expect(report.film).toHaveLength(10);
    expect(new Set(report.film.map(({ gameId }) => gameId)).size).toBe(4);
    for (const { play, claimIds, second } of report.film) {
      expect(claimIds.length).toBeGreaterThan(0);
      expect(byId.get(claimIds[0] ?? '')?.plays).toContainEqual(play);
      expect(second).toBe(30 * (play.playNumber - 1));
    }
  });

  it('says on how many snaps each field is known', () => {
    const concept = report.sample.knownOn.find(({ dimension }) => dimension === 'concept');
    expect(concept).toMatchObject({ known: 80, snaps: 160 });
  });

  it('of a player without plays is honest and empty', () => {
    const empty = assembleRoundReport(reportInput([], []));
    expect(empty.sample).toMatchObject({ games: 0, offenseSnaps: 0, newestGame: null, knownOn: [] });
    expect(empty.offense).toEqual({
      side: 'offense',
      snaps: 0,
      games: 0,
      mostUsed: [],
      bySituation: [],
      standsOut: [],
      strong: [],
      weak: [],
    });
    expect(empty.film).toEqual([]);
  });

  it('names thin situations', () => {
    const thin = assembleRoundReport(reportInput([times(7, { down: 2, distance: 5, yardsToGoal: 50 })]));
    expect(thin.thinSituations).toEqual([
      { side: 'offense', situation: '2nd and 4-6', label: '2nd and 4-6', snaps: 7 },
    ]);
  });

  it('calls a defense strong where little succeeded against it', () => {
    // Cover 1 met failures only, cover 3 successes only; without a field both are held against its own half.
    const snap: ChartedRow = { down: 1, distance: 10, yardsToGoal: 60, snapResult: 'snapResult.rushed' };
    const rows = [
      ...times(6, { ...snap, coverage: 'coverage.cover-1', yardsGained: 0 }),
      ...times(6, { ...snap, coverage: 'coverage.cover-3', yardsGained: 9 }),
    ];
    const { defense } = assembleRoundReport(reportInput([], [rows]));
    expect(defense.strong.map(({ label }) => label)).toEqual(['cover 1', 'man']);
    expect(defense.weak.map(({ label }) => label)).toEqual(['zone', 'cover 3']);
  });
});

describe('a claim in words', () => {
  const { offense } = assembleRoundReport(nineOfTwelve());
  const pass = offense.mostUsed.find(({ label }) => label === 'pass');

  // Wilson at 90 %, z = 1.645: centre (9 + 1.353) / (12 + 2.706) = 0.704, half-width
  // 1.645 / 14.706 x sqrt(9 x 3 / 12 + 0.676) = 0.191, so 51 to 90 %.
  it('from ten plays has percentages, the field and on how many it is known', () => {
    expect(pass && shareWords(pass)).toBe('9 of 12 (75 %, 51-90 %), field 61 %; known on 12 of 15');
  });

  it('below ten plays has counts only', () => {
    expect(pass && shareWords({ ...pass, count: 3, known: 4, snaps: 4, share: 0.75 })).toBe('3 of 4');
  });

  it('says where something was seen in one game of several', () => {
    expect(pass && shareWords({ ...pass, count: 3, known: 4, snaps: 5, situationGames: 2 })).toBe(
      '3 of 4; known on 4 of 5; in one game only',
    );
  });

  it('about results tells successes and yards', () => {
    // (9 x 5 + 3 x 1) / 12 = 4.0 yards; nine successes in twelve decided snaps; the field has no results.
    const result = offense.bySituation[0]?.result;
    expect(result && resultWords(result)).toBe('9 of 12 (75 %, 51-90 %); 4.0 yards a play on 12');
  });
});
