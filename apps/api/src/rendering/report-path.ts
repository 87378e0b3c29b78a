/** One step of a player's way through an event, as it stands when the report is read. */
export interface PathStep {
  /** "group", "round of 16", "final", ... */
  readonly stage: string;
  /** Null where it is not known yet or not for the reader. */
  readonly opponent: string | null;
  readonly outcome: 'won' | 'lost' | 'drawn' | 'to be played' | 'not noted';
  /** Scores of the games, the player's own first: "10-7", "17-14, 3-10"; empty where not noted. */
  readonly score: string;
  readonly forfeited: boolean;
  /** ISO 8601 date, or null where it is not noted. */
  readonly playedOn: string | null;
}

/** A step in words: "beat Quiet Heron 10-7". */
export function stepWords({ opponent, outcome, score, forfeited }: PathStep): string {
  const who = opponent ?? 'an opponent not known here';
  const what = { won: 'beat', lost: 'lost to', drawn: 'drew with', 'to be played': 'meets', 'not noted': 'met' }[
    outcome
  ];
  return [what, who, score, forfeited ? '(forfeited)' : ''].filter((word) => word !== '').join(' ');
}
