/** A part of the field that an action of the manually controlled defender leaves to others. */
export interface LeftArea {
  /** What a person reads. */
  readonly name: string;
  /** Target zones that lie in it, names after the dot of their code. */
  readonly zones: readonly string[];
  /** Target depths at which a throw there counts as a hit; any when empty. */
  readonly depths: readonly string[];
}

const SHORT_MIDDLE: LeftArea = {
  name: 'short middle',
  zones: ['middle', 'middle-hole', 'hook', 'inside-left', 'inside-right'],
  depths: ['short', 'intermediate'],
};
const DEEP_MIDDLE: LeftArea = {
  name: 'deep middle',
  zones: ['deep-middle', 'middle', 'seam'],
  depths: ['deep', 'very-deep'],
};
const BEHIND_THE_FLAT: LeftArea = {
  name: 'space behind the flat',
  zones: ['sideline-hole', 'seam', 'hook', 'outside-left', 'outside-right'],
  depths: ['intermediate', 'deep'],
};
const BEHIND_THE_BOX: LeftArea = {
  name: 'space behind the linebackers',
  zones: ['middle', 'middle-hole', 'seam', 'hook', 'inside-left', 'inside-right'],
  depths: ['short', 'intermediate'],
};

/**
 * The area that each action leaves, by the name after the dot of its code. Actions that leave nothing that can be said
 * without more (a lineman by hand, a late switch, a zone left in some direction) are not in the table; the middle hole and
 * a receiver covered man are told from where a defender of the second level would have stood. Hooks are not split by
 * strength, since most charts name the zone without its side. Common practice, no source; a clan may pass its own.
 */
export const DEFAULT_LEFT_AREAS: ReadonlyMap<string, LeftArea> = new Map([
  ['stands-in-the-middle-hole', DEEP_MIDDLE],
  ['drops-deep-middle', SHORT_MIDDLE],
  ['takes-a-hook-to-strength', SHORT_MIDDLE],
  ['takes-a-hook-away-from-strength', SHORT_MIDDLE],
  ['jumps-the-flat', BEHIND_THE_FLAT],
  ['doubles-a-receiver', SHORT_MIDDLE],
  ['rushes', SHORT_MIDDLE],
  ['fakes-a-rush-then-drops', SHORT_MIDDLE],
  ['spies-the-quarterback', BEHIND_THE_BOX],
  ['plays-the-run-first', BEHIND_THE_BOX],
  ['plays-deep-safety', SHORT_MIDDLE],
  ['covers-a-receiver-man', SHORT_MIDDLE],
]);
