import { starterVocabulary } from '../charting/vocabulary.js';
import { chartedFacts, times, type ChartedRow } from '../tendencies/charted-rows.js';
import { fieldModel } from '../tendencies/field-model.js';
import { profile } from '../tendencies/profile.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { ProfiledSide, RoundReportInput } from './round-report.js';
import type { RoundReportSettings } from './round-report-shape.js';

// Test support: the input of a report, from plays written by hand.

export const REPORT_SETTINGS: RoundReportSettings = {
  confidence: 0.9,
  margin: 0.05,
  certainty: 0.9,
  filmLength: 10,
  thinSnaps: 8,
  football: null,
};

/** @param games - the player's plays, a list a game; @param field - the others', a list a player */
export function profiledSide(
  side: Side,
  games: readonly (readonly ChartedRow[])[],
  field: readonly (readonly ChartedRow[])[],
): ProfiledSide {
  const vocabulary = starterVocabulary();
  const facts = chartedFacts(...games);
  const others = chartedFacts(...field);
  const model = fieldModel({
    facts: others,
    side,
    playerOf: others.plays.chartIndex,
    players: Math.max(1, field.length),
    vocabulary,
  });
  return {
    facts,
    profile: profile({ plays: facts, side, vocabulary, fieldModel: model, player: -1, confidence: 0.9 }),
  };
}

export function reportInput(
  offense: readonly (readonly ChartedRow[])[],
  defense: readonly (readonly ChartedRow[])[] = [],
  field: readonly (readonly ChartedRow[])[] = [],
): RoundReportInput {
  return {
    playerId: 'player-1',
    eventId: 'event-1',
    round: 'semifinal',
    madeAt: '2031-05-02T18:30:00Z',
    codeVersion: '0.1.0',
    seed: 7,
    settings: REPORT_SETTINGS,
    charts: offense.map((_, game) => ({
      chartId: `chart-${game}`,
      gameId: `game-${game}`,
      revision: game + 1,
      playedOn: `2031-04-0${game + 1}`,
      importance: 'group',
      rulesVersion: '3.1',
    })),
    offense: profiledSide('offense', offense, field),
    defense: profiledSide('defense', defense, field),
  };
}

/**
 * Fifteen first-and-ten snaps of one game, none the first of a drive since no drive is charted: nine passes of 5 yards
 * (successes, half of ten being more than four), three runs of 1 yard (failures), and three snaps whose call was not
 * seen. The field called 61 passes and 39 runs.
 */
export function nineOfTwelve(): RoundReportInput {
  const snap: ChartedRow = { down: 1, distance: 10, yardsToGoal: 60 };
  const pass = { ...snap, called: 'pass', yardsGained: 5, snapResult: 'snapResult.complete' };
  const run = { ...snap, called: 'run', yardsGained: 1, snapResult: 'snapResult.rushed' };
  const rows = [...times(9, pass), ...times(3, run), ...times(3, snap)];
  const timed = rows.map((row, place) => ({ ...row, snapSecond: 65 + 30 * place }));
  return reportInput(
    [timed],
    [],
    [[...times(61, { ...snap, called: 'pass' }), ...times(39, { ...snap, called: 'run' })]],
  );
}
