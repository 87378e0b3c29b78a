import { gatherPlays } from '../../../charting/play-columns.js';
import { PLAY_FIELDS } from '../../../charting/play-fields.js';
import { starterVocabulary } from '../../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../../football/testing/chart-of.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../classify-plays.js';
import type { TendencyPlays } from '../../tendency-plays.js';

/** Charted games as a batch, classified by down and distance. Each list of sketches is one game, each game one chart. */
export function gamesOf(games: readonly (readonly PlaySketch[])[]): TendencyPlays {
  const sources = games.map((sketches, game) => ({
    plays: chartOf(sketches, { chartId: `chart-${game}`, gameId: `game-${game}` }),
    offense: 'both' as const,
  }));
  const fields = PLAY_FIELDS.map(({ name }) => name);
  return classifyPlays(
    gatherPlays(sources, fields, (id) => id),
    starterVocabulary(),
    DEFAULT_FOOTBALL_SETTINGS,
  );
}

/** A play on second and long, so that it has a situation and opens no drive. */
export const SECOND_AND_LONG = { down: 2, distance: 8, yardsToGoal: 60 } as const satisfies PlaySketch;
