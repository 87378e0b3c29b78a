import type { MenuCall } from '../answers/options.js';
import type { PayoffTable } from '../answers/payoffs.js';
import type { ExpectedPointsChain } from '../football/expected-points-chain.js';
import type { TheirFourthDowns } from './call-sheet-shape.js';
import type { OurFigures } from './our-figures.js';
import type { SheetField } from './sheet-field.js';

/** What a call sheet is made from. */
export interface CallSheetInput {
  readonly field: SheetField;
  /** Null where the archive is too small to tell anything of payoffs. */
  readonly payoffs: PayoffTable | null;
  /** The opponent's number in the model. */
  readonly opponent: number;
  readonly menu: readonly MenuCall[];
  readonly figures: OurFigures;
  /** Of the opponent. */
  readonly theirFigures: OurFigures;
  readonly chain: ExpectedPointsChain;
  readonly theirFourthDowns: readonly TheirFourthDowns[];
  /** In [0, 1], 0 safe. */
  readonly lean: number;
  readonly confidence: number;
  /** Integer ≥ 0: of the order of mixes. */
  readonly seed: number;
}
