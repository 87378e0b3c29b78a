import { mechanismsFound, type MechanismLeagueSettings } from '#domain/answers/testing/mechanism-league.js';
import { giveawaysFound, type GiveawayLeagueSettings } from '#domain/tendencies/tells/testing/giveaway-league.js';
import { printFalseFinds } from './support/false-finds.js';

const REPORTS = { nothing: 300, planted: 100 };
const STUDIES = { nothing: 600, planted: 100 };

/** Standard deviations in logarithms of odds of what players let happen and of days, from one extreme to the other. */
const SPREADS = [
  { players: 0, day: 0 },
  { players: 0.3, day: 0.2 },
  { players: 0.6, day: 0.3 },
];
const ARCHIVES = [40, 160, 400];
const SNAPS = 30;

/**
 * What went with an answer: how many reports, which ask about several calls each, establish anything where no answer
 * brings anything, and how many find what one answer brings.
 *
 * @returns whether the bound on false ones was met
 */
export function calibrateMechanisms(): boolean {
  console.log('mechanisms, a report asks about four calls and two coverages; games of 2 x 30 snaps, 16 players');
  let met = true;
  const of = (
    more: Pick<MechanismLeagueSettings, 'games' | 'players' | 'day' | 'planted'>,
    reports: number,
    from: number,
  ) => Array.from({ length: reports }, (_, at) => mechanismsFound({ snaps: SNAPS, seed: from + at, ...more }));
  for (const [place, { players, day }] of SPREADS.entries()) {
    for (const games of ARCHIVES) {
      const found = of({ games, players, day, planted: 0 }, REPORTS.nothing, 11_000_000 + 10_000 * place);
      const wrong = found.filter((one) => one.wrong > 0);
      const calls = wrong.reduce((sum, one) => sum + one.wrong, 0);
      met =
        printFalseFinds(
          `  nothing brought, players ${players} and days ${day}, ${games} games: ${calls} of all calls have something ` +
            'established, reports with any',
          wrong.length,
          REPORTS.nothing,
        ) && met;
    }
  }
  for (const planted of [0.1, 0.2, 0.3]) {
    for (const games of ARCHIVES) {
      const found = of({ games, players: 0.3, day: 0.2, planted }, REPORTS.planted, 12_000_000);
      console.log(
        `  a free rusher ${Math.round(100 * planted)} points more often with one answer to one call, ${games} games: ` +
          `found in ${found.filter((one) => one.found).length} of ${REPORTS.planted}`,
      );
    }
  }
  return met;
}

/** Prior weights in plays: the smaller, the further players lie from everybody, and games from players. */
const TASTES = [
  { players: 16, taste: 1000, plan: 1000 },
  { players: 16, taste: 8, plan: 30 },
  { players: 4, taste: 2, plan: 12 },
];
const STUDIED = [40, 200, 800];

/**
 * What gives a call away, as a study of it asks: how many studies tell a look where none goes with the call, though
 * players like some looks and some calls, and how many find one that does.
 *
 * @returns whether the bound on false ones was met
 */
export function calibrateGiveaways(): boolean {
  console.log('what gives a call away, a study asks about one call; games of 2 x 30 snaps');
  let met = true;
  const of = (more: Omit<GiveawayLeagueSettings, 'seed' | 'snaps'>, studies: number, from: number) =>
    Array.from({ length: studies }, (_, at) => giveawaysFound({ snaps: SNAPS, seed: from + at, ...more }));
  for (const [place, { players, taste, plan }] of TASTES.entries()) {
    for (const games of STUDIED) {
      const studies = games > 400 ? STUDIES.nothing / 2 : STUDIES.nothing;
      const found = of({ games, players, taste, plan, planted: 0 }, studies, 13_000_000 + 10_000 * place);
      met =
        printFalseFinds(
          `  no look goes with it, ${players} players with a weight of ${taste}, plans of ${plan}, ${games} games: told`,
          found.filter(({ wrong }) => wrong).length,
          studies,
        ) && met;
    }
  }
  for (const planted of [0.05, 0.1, 0.2]) {
    for (const games of STUDIED) {
      const found = of({ games, players: 16, taste: 8, plan: 30, planted }, STUDIES.planted, 14_000_000);
      console.log(
        `  ${Math.round(100 * planted)} points more often after one motion, ${games} games: found in ` +
          `${found.filter((one) => one.found).length} of ${STUDIES.planted}, another look as well in ` +
          `${found.filter(({ wrong }) => wrong).length}`,
      );
    }
  }
  return met;
}
