import { FEWEST_FOR_PERCENT } from '#domain/tendencies/words/count-words.js';

/** How a cell is drawn: by shade and by border, so that neither a grey printer nor a poor one loses the order. */
export interface Shade {
  /** What it means, for the legend. */
  readonly label: string;
  readonly fill: string;
  /** Colour of the text on it. */
  readonly ink: string;
  readonly border: number;
  readonly dashed: boolean;
}

const STEPS: readonly (Shade & { readonly from: number })[] = [
  { from: 0, label: 'under 10 %', fill: '#ffffff', ink: '#000000', border: 0.5, dashed: false },
  { from: 0.1, label: '10 to 24 %', fill: '#ececec', ink: '#000000', border: 0.5, dashed: false },
  { from: 0.25, label: '25 to 39 %', fill: '#d0d0d0', ink: '#000000', border: 1, dashed: false },
  { from: 0.4, label: '40 to 59 %', fill: '#a6a6a6', ink: '#000000', border: 2, dashed: false },
  { from: 0.6, label: '60 % and more', fill: '#404040', ink: '#ffffff', border: 3, dashed: false },
];

/** "2 of 2" must not be the darkest cell of the page. */
const TOO_FEW: Shade = {
  label: `fewer than ${FEWEST_FOR_PERCENT} plays: counts only`,
  fill: '#ffffff',
  ink: '#000000',
  border: 1,
  dashed: true,
};

export const SHADES: readonly Shade[] = [...STEPS, TOO_FEW];

/** @param count - of `known`; 0 ≤ count ≤ known */
export function shadeOf(count: number, known: number): Shade {
  if (known < FEWEST_FOR_PERCENT) return TOO_FEW;
  return STEPS.findLast(({ from }) => count / known >= from) ?? TOO_FEW;
}
