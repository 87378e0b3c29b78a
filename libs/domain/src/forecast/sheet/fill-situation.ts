import type { PlayValue } from '../../charting/play-columns.js';
import { fieldPlace, FLAG, PLAY_TYPES, type NumberFieldName } from '../../charting/play-fields.js';

const SCRIMMAGE = PLAY_TYPES.indexOf('scrimmage');
const PLAY_TYPE = fieldPlace('playType');
const REPLAYED = fieldPlace('replayed');
const NOT_REPLAYED = FLAG.indexOf('no');
const FOUL_FIELDS = (['foul', 'foulSide', 'foulAnswer'] as const).map(fieldPlace);
/** What a snap and the wait for the next one take off the clock, in seconds; common practice, no source. */
const SECONDS_A_PLAY = 25;

/** A play of a game, who has the ball and who has not: a number for each player, -1 where unknown. */
export interface SheetPlay {
  readonly values: readonly PlayValue[];
  readonly offense: number;
  readonly defense: number;
}

/**
 * Blanks of the situation, filled with what the earlier plays of the game say of it: quarter, score and timeouts as they
 * were last, the clock run on; the drive, and down, distance and spot by the yards gained, after a play from scrimmage of
 * the same side without a foul. Guesses for a forecast, such as somebody makes who missed the graphics, never a chart's
 * mending: a score or a change of quarter in between goes unnoticed. Nothing that is known is changed, and no play looks
 * at itself or a later one for more than its own known situation.
 *
 * @param plays - all plays of one game in order
 * @returns the values of each play, and how many blanks were filled
 */
export function fillSituation(plays: readonly SheetPlay[]): {
  readonly values: readonly (readonly PlayValue[])[];
  readonly filled: number;
} {
  let filled = 0;
  let before: SheetPlay | null = null;
  const lastKnown: LastKnown = { lead: null, timeouts: new Map() };
  const values = plays.map((play) => {
    const now = [...play.values];
    const guesses = before === null ? [] : guessesOf(play, now, before, lastKnown);
    for (const [name, guess] of guesses) {
      const place = fieldPlace(name);
      if (now[place] !== null || guess === null) continue;
      now[place] = guess;
      filled += 1;
    }
    before = { ...play, values: now };
    remember(before, lastKnown);
    return now;
  });
  return { values, filled };
}

interface LastKnown {
  lead: { readonly player: number; readonly points: number } | null;
  readonly timeouts: Map<number, number>;
}

type Guess = readonly [NumberFieldName, number | null];

function remember({ values, offense, defense }: SheetPlay, known: LastKnown): void {
  const points = numberOf(values, 'scoreDifference');
  if (points !== null && offense >= 0) known.lead = { player: offense, points };
  const keep = (player: number, left: number | null): void => {
    if (left !== null && player >= 0) known.timeouts.set(player, left);
  };
  keep(offense, numberOf(values, 'offenseTimeouts'));
  keep(defense, numberOf(values, 'defenseTimeouts'));
}

function guessesOf(play: SheetPlay, now: readonly PlayValue[], before: SheetPlay, known: LastKnown): Guess[] {
  const { offense, defense } = play;
  const quarterBefore = numberOf(before.values, 'quarter');
  const quarter = numberOf(now, 'quarter') ?? quarterBefore;
  const clock = numberOf(before.values, 'clockSeconds');
  const { lead, timeouts } = known;
  const isSameSide = offense >= 0 && offense === before.offense;
  return [
    ['quarter', quarter],
    ['clockSeconds', clock === null || quarter !== quarterBefore ? null : Math.max(0, clock - SECONDS_A_PLAY)],
    ['scoreDifference', lead === null || offense < 0 ? null : (lead.player === offense ? 1 : -1) * lead.points + 0],
    ['offenseTimeouts', timeouts.get(offense) ?? null],
    ['defenseTimeouts', timeouts.get(defense) ?? null],
    ...(isSameSide ? ([['drive', numberOf(before.values, 'drive')]] as const) : []),
    ...(isSameSide && isScrimmage(now) && isScrimmage(before.values) ? spotAfter(now, before.values) : []),
  ];
}

function isScrimmage(values: readonly PlayValue[]): boolean {
  return values[PLAY_TYPE] === SCRIMMAGE;
}

/** Down, distance and spot after a snap that stood. */
function spotAfter(now: readonly PlayValue[], before: readonly PlayValue[]): Guess[] {
  const gain = numberOf(before, 'yardsGained');
  const isOpen = FOUL_FIELDS.some((place) => before[place] !== null) || isReplayed(before);
  if (gain === null || isOpen) return [];
  const down = numberOf(before, 'down');
  const distance = numberOf(before, 'distance');
  const spot = numberOf(before, 'yardsToGoal');
  const toGoal = spot === null ? null : Math.min(99, Math.max(1, spot - gain));
  const guesses: Guess[] = [['yardsToGoal', toGoal]];
  if (down === null || distance === null) return guesses;
  const left = distance - gain;
  const fresh = Math.min(10, numberOf(now, 'yardsToGoal') ?? toGoal ?? 10);
  return left <= 0
    ? [...guesses, ['down', 1], ['distance', fresh]]
    : [...guesses, ['down', Math.min(4, down + 1)], ['distance', Math.min(99, left)]];
}

function isReplayed(values: readonly PlayValue[]): boolean {
  return values[REPLAYED] !== null && values[REPLAYED] !== NOT_REPLAYED;
}

function numberOf(values: readonly PlayValue[], name: NumberFieldName): number | null {
  const value = values[fieldPlace(name)];
  return typeof value === 'number' ? value : null;
}
