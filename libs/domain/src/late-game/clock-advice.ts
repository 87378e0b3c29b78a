import { assertCount } from '../statistics/guards.js';

/** A clock that runs against one side. */
export interface ClockSituation {
  /** Ours less theirs. */
  readonly lead: number;
  /** Until the half or the game ends. */
  readonly secondsLeft: number;
  /** Whether the game ends with it, and not the half. */
  readonly endsGame: boolean;
  readonly ball: 'us' | 'them';
  /** Of whoever has the ball, 1 to 4. */
  readonly down: number;
  /** Of whoever has the ball. */
  readonly yardsToGoal: number;
  readonly ourTimeouts: number;
  readonly theirTimeouts: number;
  /** That the clock runs from the end of one play to the next snap if nobody hurries. */
  readonly runOffSeconds: number;
}

export interface ClockAdvice {
  readonly do: 'kneel' | 'burn' | 'use timeouts' | 'keep timeouts' | 'hurry' | 'play on';
  /** That the side with the ball can take off the clock by kneeling, from this down on. */
  readonly kneelSeconds: number;
  /** More sets of downs that it needs to run the clock out; 0 where kneeling does. */
  readonly setsToRunOut: number;
}

/** That a kneel takes by itself. Common practice, no source. */
const KNEEL_SECONDS = 2;
/** Last of the downs on which one kneels: the next one must not come. */
const LAST_DOWN = 4;
/** A play by the book: snap to whistle. Common practice, no source. */
const PLAY_SECONDS = 6;
/** From here a kick or one throw may still score. Common practice, no source. */
const IN_REACH = 60;
/** A lead of more is not caught up with a touchdown and two points. */
const ONE_SCORE = 8;
/** Longer than this before the end the clock decides nothing. Common practice, no source. */
const LATE_SECONDS = 360;

/**
 * Kneel, burn the clock, use or keep timeouts, hurry, or play on. Kneels are counted down by down: each takes two seconds and the
 * run-off after it, unless the other side stops the clock. Common practice, no source; the run-off is the event's.
 *
 * @throws DomainError `stats.invalid_count`
 */
export function clockAdvice(situation: ClockSituation): ClockAdvice {
  const { secondsLeft, ball, down, ourTimeouts, theirTimeouts, runOffSeconds } = situation;
  assertCount('secondsLeft', secondsLeft, { min: 0 });
  assertCount('down', down, { min: 1, max: LAST_DOWN });
  assertCount('ourTimeouts', ourTimeouts, { min: 0, max: 3 });
  assertCount('theirTimeouts', theirTimeouts, { min: 0, max: 3 });
  assertCount('runOffSeconds', runOffSeconds, { min: 0, max: 60 });
  const stops = ball === 'us' ? theirTimeouts : ourTimeouts;
  const kneelSeconds = burned(LAST_DOWN - down, stops, runOffSeconds);
  // A set of downs runs three plays off; timeouts that are spent are gone.
  const stopsLeft = Math.max(0, stops - (LAST_DOWN - down));
  const afterwards = Math.max(0, secondsLeft - kneelSeconds);
  const firstSet = burned(LAST_DOWN - 1, stopsLeft, runOffSeconds);
  const laterSet = burned(LAST_DOWN - 1, 0, runOffSeconds);
  const setsToRunOut =
    afterwards === 0 ? 0 : afterwards <= firstSet ? 1 : 1 + Math.ceil((afterwards - firstSet) / laterSet);
  return { do: whatToDo(situation, setsToRunOut), kneelSeconds, setsToRunOut };
}

function burned(kneels: number, stops: number, runOffSeconds: number): number {
  return kneels * KNEEL_SECONDS + Math.max(0, kneels - stops) * runOffSeconds;
}

function whatToDo(situation: ClockSituation, setsToRunOut: number): ClockAdvice['do'] {
  const { lead, endsGame, ball, secondsLeft, yardsToGoal, ourTimeouts, runOffSeconds } = situation;
  if (secondsLeft > LATE_SECONDS) return 'play on';
  if (endsGame) {
    if (ball === 'us') {
      if (lead > 0) return setsToRunOut === 0 ? 'kneel' : 'burn';
      return secondsLeft <= runOffSeconds * LAST_DOWN || lead < -ONE_SCORE ? 'hurry' : 'play on';
    }
    if (lead > 0) return 'play on';
    // Saved where they could run it out; kept where they would have to snap it more often anyway.
    return ourTimeouts === 0 ? 'play on' : setsToRunOut <= 1 ? 'use timeouts' : 'keep timeouts';
  }
  if (ball === 'them') return 'play on';
  const plays = secondsLeft <= PLAY_SECONDS ? 1 : 2;
  return plays === 1 && yardsToGoal > IN_REACH
    ? 'kneel'
    : secondsLeft <= runOffSeconds * LAST_DOWN
      ? 'hurry'
      : 'play on';
}
