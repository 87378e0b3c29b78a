import type { FieldSet, FilmBundle, FilmPart } from '#domain/bracket/charting-queue-shape.js';
import { DOWNS, QUARTERS } from '#domain/bracket/expected-snaps.js';
import type { FilmScope } from '#domain/charting/film-scope.js';
import type { PlayFieldName } from '#domain/charting/play-fields.js';
import { DIMENSION_NAMES, type DimensionName } from '#domain/tendencies/dimension-names.js';
import type { FilmedGame } from './charting-queue.repository.js';

export const BUNDLES: readonly FilmBundle[] = [
  { name: 'third and fourth downs', downs: [3, 4], quarters: null },
  { name: 'first quarter, with the openers', downs: null, quarters: [1] },
  { name: 'second quarter, with the two minutes', downs: null, quarters: [2] },
  { name: 'fourth quarter, with the two minutes', downs: null, quarters: [4] },
  { name: 'first and second downs', downs: [1, 2], quarters: null },
  { name: 'all snaps', downs: null, quarters: null },
];

/** What a play is read by in a hurry: where it was, what it looked like, what was called, how it ended. */
export const KEY_FIELDS = [
  ...([
    'playType',
    'quarter',
    'down',
    'distance',
    'yardsToGoal',
    'formation',
    'called',
    'callFamily',
    'concept',
  ] as const),
  ...(['front', 'shell', 'coverage', 'pressure', 'rushers', 'snapResult', 'yardsGained', 'snapSecond'] as const),
] satisfies readonly PlayFieldName[];

const KEY_DIMENSIONS: readonly DimensionName[] = [
  ...(['called', 'callFamily', 'concept', 'formation'] as const),
  ...(['front', 'shell', 'coverage', 'coverageFamily', 'pressure', 'rushers'] as const),
];

/** Common practice, no source: half of the fields in little more than half of the time. */
const KEY_PACE = 0.55;

export interface NamedFieldSet extends FieldSet {
  /** As a chart's scope names them; null: all. */
  readonly fields: readonly string[] | null;
}

export function fieldSets(secondsAPlay: number): NamedFieldSet[] {
  return [
    {
      name: 'key fields',
      dimensions: new Set(KEY_DIMENSIONS),
      secondsAPlay: KEY_PACE * secondsAPlay,
      fields: KEY_FIELDS,
    },
    {
      name: 'all fields',
      dimensions: new Set<DimensionName>([...DIMENSION_NAMES.offense, ...DIMENSION_NAMES.defense]),
      secondsAPlay,
      fields: null,
    },
  ];
}

/** A habit half as old as this counts for more than half; common practice, no source. */
const HALF_LIFE_DAYS = 120;
const DAY_MS = 86_400_000;

/**
 * What of these games is not charted yet, in parts as small as a scope can name.
 *
 * @param numberOf - the caller's number of a player, -1 for somebody who is not asked about
 * @param expected - snaps by situation, of a down and a quarter of an average game
 */
export function uncharted(
  games: readonly FilmedGame[],
  numberOf: (playerId: string) => number,
  expected: (down: number, quarter: number) => Float64Array,
): FilmPart[] {
  const newest = Math.max(...games.map(({ playedOn }) => (playedOn === null ? 0 : Date.parse(playedOn))));
  return games.flatMap((game, number) => {
    const age = game.playedOn === null ? HALF_LIFE_DAYS : (newest - Date.parse(game.playedOn)) / DAY_MS;
    const recency = 0.5 ** (age / HALF_LIFE_DAYS);
    return [true, false].flatMap((offenseIsHome) => {
      const [offenseId, defenseId] = offenseIsHome
        ? [game.homePlayerId, game.awayPlayerId]
        : [game.awayPlayerId, game.homePlayerId];
      const sides = { offense: numberOf(offenseId), defense: numberOf(defenseId) };
      const parts: FilmPart[] = [];
      for (let down = 1; down <= DOWNS; down += 1) {
        for (let quarter = 1; quarter <= QUARTERS; quarter += 1) {
          if (game.scopes.some((scope) => covers(scope, { offenseIsHome, down, quarter }))) continue;
          parts.push({ game: number, ...sides, offenseIsHome, down, quarter, plays: expected(down, quarter), recency });
        }
      }
      return parts;
    });
  });
}

/** Whether a chart looked at these snaps for what a report is made of. */
function covers(
  scope: FilmScope,
  { offenseIsHome, down, quarter }: Pick<FilmPart, 'offenseIsHome' | 'down' | 'quarter'>,
): boolean {
  const side = scope.offense === null || (scope.offense === 'home') === offenseIsHome;
  const fields =
    scope.fields === null || KEY_FIELDS.every((name) => SITUATIONAL.has(name) || scope.fields?.includes(name));
  return side && fields && (scope.downs?.includes(down) ?? true) && (scope.quarters?.includes(quarter) ?? true);
}

/** What every chart has, whether its scope names it or not. */
const SITUATIONAL: ReadonlySet<string> = new Set([
  'playType',
  'quarter',
  'down',
  'distance',
  'yardsToGoal',
  'snapSecond',
]);
