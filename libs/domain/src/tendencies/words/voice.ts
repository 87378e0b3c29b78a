/** To whom a figure is told: to whoever scouts a player, or to the player, as what an opponent would learn. */
export type Voice = 'scout' | 'self';

/** The same finding, in both voices. */
export interface Finding {
  /** `3rd and 7-10: pass 9 of 12`. */
  readonly scout: string;
  /** What follows "you": `call pass 9 of 12 times on 3rd and 7-10`. */
  readonly self: string;
  /** Said after it in either voice, each a part of its own: `known on 12 of 15`. */
  readonly notes: readonly string[];
}

/** A finding as a sentence. */
export function sentence({ scout, self, notes }: Finding, voice: Voice): string {
  return [voice === 'self' ? `an opponent would learn that you ${self}` : scout, ...notes].join('; ');
}
