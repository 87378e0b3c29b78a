import type { NoteTerms } from '../../coaching/note.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import type { ReportPlay } from '../report-play.js';

/** What a report says of how the player's calls were answered, and how to mix ours; as plain as the rest of it. */
export interface ReportAnswers {
  /** What it rests on and what it cannot say. */
  readonly restsOn: string;
  /** Calls of the player's worth an answer. */
  readonly calls: readonly AnsweredCall[];
  /** Situation by situation, the most frequent first: against the player's offense, then the defense. */
  readonly mixes: readonly ReportMix[];
}

export interface AnsweredCall {
  readonly id: string;
  /** The player's side: calls of the offense, or coverages of the defense. */
  readonly side: Side;
  readonly label: string;
  /** What it is in canonical terms; absent in older reports. */
  readonly terms?: Partial<NoteTerms>;
  /** Why it is here, with counts. */
  readonly words: string;
  /** Our installed calls first, then what others did. */
  readonly answers: readonly AnswerLine[];
  /** Games that held it best, or for a defense beat it most. */
  readonly games: readonly GameLine[];
}

export interface AnswerLine {
  readonly id: string;
  readonly label: string;
  /** Ours, or to install. */
  readonly installed: boolean;
  /** Of the menu, and what it is in canonical terms; absent in older reports. */
  readonly menuCallId?: string | null;
  readonly terms?: Partial<NoteTerms>;
  /** The sentence; it names `count` where there is one. */
  readonly words: string;
  /** Times it was met. */
  readonly count: number;
  readonly plays: readonly ReportPlay[];
  /** What it was expected to give, from the side with the ball; absent in older reports. */
  readonly expected?: ExpectedAnswer;
}

/** Points added a play beside the situation's mean. */
export interface ExpectedAnswer {
  readonly points: number;
  readonly interval: { readonly lower: number; readonly upper: number };
}

export interface GameLine {
  readonly id: string;
  readonly gameId: string;
  /** Identities of the players, by whose handles a reader reads them. */
  readonly offense: string | null;
  readonly defense: string | null;
  /** The sentence without the players. */
  readonly words: string;
  readonly count: number;
  readonly plays: readonly ReportPlay[];
}

export interface ReportMix {
  readonly id: string;
  /** Whose calls are answered. */
  readonly side: Side;
  readonly situation: string;
  /** Plays of the player in it. */
  readonly plays: number;
  /** What the player calls, with counts. */
  readonly theirs: string;
  /** Whether the calls are installed ones. */
  readonly installed: boolean;
  /** From safe to bold. */
  readonly dial: readonly { readonly name: string; readonly mix: string; readonly words: string }[];
  /** Calls of ours that never pay here. */
  readonly neverPays: readonly string[];
}
