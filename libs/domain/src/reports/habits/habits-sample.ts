import type { MenuCall } from '../../answers/options.js';
import { starterVocabulary } from '../../charting/vocabulary.js';
import { clockSituationCodes, DEFAULT_CLOCK_SETTINGS } from '../../football/clock-situations.js';
import { DEFAULT_FOOTBALL_SETTINGS } from '../../tendencies/classify-plays.js';
import type { AskedPlays } from '../../tendencies/decisions/asked-plays.js';
import { chartedFacts, times, type ChartedRow } from '../../tendencies/charted-rows.js';
import type { HabitsInput } from './habits.js';
import type { HabitGame } from './shares-over-events.js';

// Test support: what habits are read from, as plays written by hand.

type Games = readonly (readonly ChartedRow[])[];

export const SNAP: ChartedRow = { down: 1, distance: 10, yardsToGoal: 60 };

/**
 * @param field - the others' games; each two in a row are one player's, the first under the older rules of two
 * @param games - facts of the player's games; by default a week apart and all of one event under the same rules
 */
export function habitsInput(
  offense: Games,
  defense: Games = [],
  field: Games = [],
  games: readonly Partial<HabitGame>[] = [],
  menu: readonly MenuCall[] = [],
): HabitsInput {
  const side = (of: Games): HabitsInput['offense'] => {
    const asked = askedPlays(of, field);
    return { asked, whole: asked };
  };
  return {
    offense: side(offense),
    defense: side(defense),
    games: Array.from({ length: Math.max(offense.length, defense.length) }, (_, game) => ({
      ...{ eventId: 'event-1', playedOn: `2031-04-${10 + game}`, rulesVersion: '3.1' },
      ...games[game],
    })),
    fieldVersions: field.map((_, game) => (game % 2 === 0 ? '3.0' : '3.1')),
    situations: DEFAULT_FOOTBALL_SETTINGS.situations,
    clock: (plays) => clockSituationCodes(plays, DEFAULT_CLOCK_SETTINGS, 900),
    menu,
  };
}

function askedPlays(games: Games, field: Games): AskedPlays {
  const others = chartedFacts(...field);
  const playerOf = Int32Array.from(others.plays.chartIndex, (chart) => Math.floor(chart / 2));
  return {
    facts: chartedFacts(...games),
    field: field.length === 0 ? null : { facts: others, playerOf },
    player: -1,
    vocabulary: starterVocabulary(),
    confidence: 0.9,
  };
}

/** A first-and-ten snap with its call and, where given, its motion. */
export function call(called: 'run' | 'pass', motion?: 'jet' | 'none'): ChartedRow {
  return { ...SNAP, called, ...(motion === undefined ? {} : { motion: `motion.${motion}` }) };
}

/** One game: ten snaps after a jet motion, nine of them runs; ten without a motion, nine of them passes. */
export const JET_GAME: readonly ChartedRow[] = [
  ...times(9, call('run', 'jet')),
  ...times(1, call('pass', 'jet')),
  ...times(1, call('run', 'none')),
  ...times(9, call('pass', 'none')),
];

/** Everybody else: run and pass are even, whatever the motion. */
export const EVEN_GAME: readonly ChartedRow[] = [
  ...times(10, call('run', 'jet')),
  ...times(10, call('pass', 'jet')),
  ...times(10, call('run', 'none')),
  ...times(10, call('pass', 'none')),
];
