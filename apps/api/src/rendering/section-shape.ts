/** One entry of a list: what it is about, and where it can be seen. */
export interface SectionItem {
  readonly text: string;
  readonly url: string | null;
}

export type SectionBlock =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly SectionItem[] }
  /** A cell is a list of lines. */
  | {
      readonly kind: 'table';
      readonly headers: readonly string[];
      readonly rows: readonly (readonly (readonly string[])[])[];
    };

export interface Section {
  readonly title: string;
  readonly blocks: readonly SectionBlock[];
}
