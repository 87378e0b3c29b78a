import type { PlayValue } from './play-columns.js';
import { PLAY_FIELDS, PLAY_TYPES, type PlayFieldName, type PlayType } from './play-fields.js';

/** What one play says that cannot be. */
export interface PlayProblem {
  readonly field: PlayFieldName;
  readonly found: string;
  readonly expected: string;
}

const WITHOUT_DOWN: ReadonlySet<PlayType> = new Set<PlayType>(['kickoff', 'free kick', 'try kick', 'two-point try']);

const PLACE: ReadonlyMap<string, number> = new Map(PLAY_FIELDS.map((field, place) => [field.name, place]));

/**
 * Contradictions inside a single play; what follows from the play before is continuity's business. An unknown value
 * contradicts nothing.
 *
 * @param values - aligned with PLAY_FIELDS, each already inside its own range
 */
export function checkPlay(values: readonly PlayValue[]): readonly PlayProblem[] {
  const problems: PlayProblem[] = [];
  const valueOf = (field: PlayFieldName): number | null => {
    const value = values[PLACE.get(field) ?? -1] ?? null;
    return typeof value === 'number' ? value : null;
  };
  const refuse = (field: PlayFieldName, found: number | null, expected: string): void => {
    problems.push({ field, found: found === null ? '' : String(found), expected });
  };

  const playType = PLAY_TYPES[valueOf('playType') ?? -1];
  const down = valueOf('down');
  const distance = valueOf('distance');
  const yardsToGoal = valueOf('yardsToGoal');
  const yardsGained = valueOf('yardsGained');
  const lineUpSecond = valueOf('lineUpSecond');
  const snapSecond = valueOf('snapSecond');

  if (playType === undefined) refuse('playType', null, `one of: ${PLAY_TYPES.join(', ')}`);
  else if (WITHOUT_DOWN.has(playType) && down !== null) refuse('down', down, `empty on a ${playType}`);
  if (distance !== null && yardsToGoal !== null && distance > yardsToGoal) {
    refuse('distance', distance, `at most the ${yardsToGoal} yards to the goal line`);
  }
  if (yardsGained !== null && yardsToGoal !== null && yardsGained > yardsToGoal) {
    refuse('yardsGained', yardsGained, `at most the ${yardsToGoal} yards to the goal line`);
  }
  if (lineUpSecond !== null && snapSecond !== null && lineUpSecond > snapSecond) {
    refuse('lineUpSecond', lineUpSecond, `not after the snap at second ${snapSecond}`);
  }
  return problems;
}
