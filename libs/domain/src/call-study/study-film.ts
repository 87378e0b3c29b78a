import type { AnswerModel } from '../answers/answer-model.js';
import type { GameMet } from '../answers/games-met.js';
import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { UNKNOWN_POINTS } from '../football/expected-points-added.js';

/** A play to watch. */
export interface StudyPlay {
  /** In the field's batch. */
  readonly place: number;
  /** Place of its game in the list of games that met the call. */
  readonly game: number;
  /** What the defense did, or null where it was not seen. */
  readonly answer: string | null;
  readonly succeeded: boolean | null;
}

// What is watched in ten minutes, and no game for itself alone. Choices, no source.
const MOST_PLAYS = 12;
const PLAYS_A_GAME = 3;

/** Plays of the games that lead the list, those with a second of the video only, in the order of the games. */
export function studyFilm({ facts, answers, succeeded }: AnswerModel, met: readonly GameMet[]): StudyPlay[] {
  const seconds = facts.plays.number('snapSecond').values;
  return met
    .flatMap(({ evidence }, game) =>
      evidence
        .places()
        .filter((play) => (seconds[play] ?? UNKNOWN_NUMBER) !== UNKNOWN_NUMBER)
        .slice(0, PLAYS_A_GAME)
        .map((place): StudyPlay => {
          const level = answers.levels[answers.codes[place] ?? -1];
          const outcome = succeeded[place] ?? UNKNOWN_POINTS;
          return {
            place,
            game,
            answer: level === undefined || level.detail === 'not seen' ? null : level.label,
            succeeded: outcome === UNKNOWN_POINTS ? null : outcome === 1,
          };
        }),
    )
    .slice(0, MOST_PLAYS);
}
