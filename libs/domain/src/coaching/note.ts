/** What a coaching point is about, as far as it says; its text and its author stay where they are kept. */
export interface Note {
  readonly id: string;
  readonly revision: number;
  readonly about: 'call' | 'answer' | 'opponent' | 'play';
  readonly menuCallId: string | null;
  /** Terms, canonical; null where it says nothing of the kind. */
  readonly callFamily: number | null;
  readonly concept: number | null;
  readonly formation: number | null;
  readonly front: number | null;
  readonly coverage: number | null;
  readonly pressure: number | null;
  /** Identity of the opponent. */
  readonly playerId: string | null;
  readonly chartId: string | null;
  readonly playNumber: number | null;
}

export type NoteTerms = Pick<Note, (typeof TERM_PARTS)[number]>;

export const TERM_PARTS = ['callFamily', 'concept', 'formation', 'front', 'coverage', 'pressure'] as const;
