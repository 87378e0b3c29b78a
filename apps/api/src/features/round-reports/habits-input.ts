import type { MenuCall } from '#domain/answers/options.js';
import type { HabitsInput, HabitSide } from '#domain/reports/habits/habits.js';
import { DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import type { AskedPlays } from '#domain/tendencies/decisions/asked-plays.js';
import { clockOfGames } from '../../common/clock-of-games.js';
import type { AskedSide, Scouting } from '../tendencies/tendencies.service.js';

/**
 * What the habits of a report are read from.
 *
 * @param all   - every counting chart of the player
 * @param whole - those that looked at every snap, for what follows what
 * @param menu  - our installed calls
 */
export async function habitsInput(
  all: Scouting,
  whole: Scouting,
  menu: readonly MenuCall[],
  confidence: number,
): Promise<HabitsInput> {
  const offense = await all.asked('offense');
  const defense = await all.asked('defense');
  const side = async (of: AskedSide): Promise<HabitSide> => ({
    asked: askedPlays(of, confidence),
    whole: askedPlays(whole === all ? of : await whole.asked(of.side), confidence),
  });
  return {
    offense: await side(offense),
    defense: await side(defense),
    games: offense.charts.map(({ eventId, playedOn, rulesVersion }) => ({ eventId, playedOn, rulesVersion })),
    fieldVersions: offense.fieldCharts.map(({ rulesVersion }) => rulesVersion),
    situations: DEFAULT_FOOTBALL_SETTINGS.situations,
    clock: clockOfGames([...offense.charts, ...offense.fieldCharts]),
    menu,
  };
}

function askedPlays({ facts, field, player, vocabulary }: AskedSide, confidence: number): AskedPlays {
  return { facts, field, player, vocabulary, confidence };
}
