import type { TermKind } from '../play-fields.js';

/** A term that the service brings along: a plain trade term, the same for every clan. */
export interface StarterTerm {
  readonly kind: TermKind;
  /** Kind and name as a slug, `formation.three-by-one`: stable, unique, never reused for another meaning. */
  readonly code: string;
  readonly name: string;
  /** Code of the term this one rolls up to: of the same kind, but a concept's parent is its usual call family. */
  readonly parent?: string;
  /** Other words for the same thing; each stands for one term inside its kind. */
  readonly synonyms: readonly string[];
  readonly meaning?: string;
  /** On call families that fix it; a concept inherits it through its parent. */
  readonly called?: 'run' | 'pass';
  /** On pre-snap adjustments: the side that makes it. */
  readonly by?: 'offense' | 'defense';
  /** On target zones that lie in one lane. */
  readonly lane?: 'left' | 'middle' | 'right';
}
