import type { OurFigures } from '../call-sheet/our-figures.js';
import { weighedKick, weighedTry } from './late-game.js';

/** Leads at which a sheet says to do what is unusual, with so many drives left. */
export interface LateGameStrip {
  /** Of both, after the try or the kick. */
  readonly drivesLeft: number;
  /** Ours less theirs, the touchdown counted: go for two. */
  readonly two: readonly number[];
  /** Ours less theirs: kick onside. */
  readonly onside: readonly number[];
}

const DRIVES = [1, 2, 4];
/** Two scores either way; beyond them no single choice decides much. */
const LEADS = Array.from({ length: 33 }, (_, at) => at - 16);

/** What is unusual late, while it can still be read off a sheet. @param theirs - of the opponent */
export function lateGameStrip(ours: OurFigures, theirs: OurFigures): LateGameStrip[] {
  return DRIVES.map((drivesLeft) => ({
    drivesLeft,
    two: LEADS.filter((lead) => weighedTry(ours, theirs, lead, drivesLeft).best === 'two'),
    onside: LEADS.filter((lead) => weighedKick(ours, theirs, lead, drivesLeft).best === 'onside'),
  }));
}
