export const TERM_PARTS = ['callFamily', 'concept', 'formation', 'front', 'coverage', 'pressure'] as const;

/** Terms of a call, canonical in the domain; null where nothing of the kind is said. */
export type NoteTerms = Readonly<Record<(typeof TERM_PARTS)[number], number | null>>;

/** What a coaching point is about, as far as it says; its text and its author stay where they are kept. */
export interface Note extends NoteTerms {
  readonly id: string;
  readonly revision: number;
  readonly about: 'call' | 'answer' | 'opponent' | 'play';
  readonly menuCallId: string | null;
  /** Identity of the opponent. */
  readonly playerId: string | null;
  readonly chartId: string | null;
  readonly playNumber: number | null;
}
