import { assertCount, assertOpenUnit, assertUnit } from '../statistics/guards.js';
import type { CallSheetInput } from './call-sheet-input.js';
import type { CallSheet, ChangedCell, SheetCell, SheetSide } from './call-sheet-shape.js';
import { ClipList } from './clip-list.js';
import { fourthDownStrip } from './fourth-down-strip.js';
import { lateGameStrip } from '../late-game/late-game-strip.js';
import { CELLS } from './sheet-cells.js';
import { cellMaker, type PlannedCell } from './planned-cell.js';

/** What a person takes in beside what is known by heart. A choice, no source. */
export const MOST_CHANGES = 3;
/** A change is only made on what was seen at least so often. Common practice, no source. */
const FEWEST_TO_CHANGE = 5;
/** Points a play; what would print as nothing is not worth learning a cell anew for. A choice, no source. */
const LEAST_WORTH = 0.005;

/**
 * The sheet to call a game from: for each situation our calls against what this opponent does in it. It is our base sheet,
 * made against the field, with the changes that are worth most over a game, three at most; everything else stays where a
 * caller knows it to be. The same input gives the same sheet.
 *
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_count`
 * @see callMix, mixedOrder, fourthDownAdvice
 */
export function callSheet(input: CallSheetInput): CallSheet {
  assertOpenUnit('confidence', input.confidence);
  assertUnit('lean', input.lean);
  assertCount('seed', input.seed, { min: 0 });
  const planned = (['offense', 'defense'] as const).map((side) => {
    const make = cellMaker(input, side);
    return { side, cells: CELLS.map(make) };
  });
  const changed = worthiest(planned.flatMap(({ cells }) => cells));
  const clips = new ClipList(input.field.model.facts.plays);
  const [offense, defense] = planned.map(({ side, cells }): SheetSide => ({
    side,
    cells: cells.map((cell) => sheetCell(cell, changed.has(cell), clips)),
  }));
  return {
    formatVersion: 1,
    seed: input.seed,
    lean: input.lean,
    confidence: input.confidence,
    offense: offense ?? { side: 'offense', cells: [] },
    defense: defense ?? { side: 'defense', cells: [] },
    fourthDowns: fourthDownStrip(input.figures, input.chain),
    lateGame: lateGameStrip(input.figures, input.theirFigures),
    figures: input.figures,
    theirFourthDowns: input.theirFourthDowns,
    clips: clips.all(),
  };
}

/** The cells of both sides that leave the base sheet, those that gain most over a game first. */
export function changedCells({ offense, defense }: Pick<CallSheet, 'offense' | 'defense'>): ChangedCell[] {
  const gain = ({ cell, change }: ChangedCell): number => gainAGame(change.worth, cell);
  return [offense, defense]
    .flatMap(({ side, cells }) =>
      cells.flatMap((cell): ChangedCell[] => (cell.change === null ? [] : [{ side, cell, change: cell.change }])),
    )
    .sort((one, other) => gain(other) - gain(one));
}

/** What each play gains times how often it comes up. */
function gainAGame(worth: number, { snaps, games }: Pick<PlannedCell, 'snaps' | 'games'>): number {
  return (worth * snaps) / Math.max(1, games);
}

/** The changes that are worth most over a game. */
function worthiest(cells: readonly PlannedCell[]): ReadonlySet<PlannedCell> {
  return new Set(
    cells
      .filter(
        (cell) =>
          cell.isOther && cell.worth >= LEAST_WORTH && cell.snaps >= FEWEST_TO_CHANGE && cell.standsFor === null,
      )
      .sort((one, other) => gainAGame(other.worth, other) - gainAGame(one.worth, one))
      .slice(0, MOST_CHANGES),
  );
}

function sheetCell(cell: PlannedCell, isChanged: boolean, clips: ClipList): SheetCell {
  const mix = isChanged ? cell.against : cell.base;
  return {
    key: cell.plan.key,
    group: cell.plan.group,
    title: cell.plan.title,
    snaps: cell.snaps,
    games: cell.games,
    theirs: cell.theirs.map(({ habit }) => habit),
    calls: mix.calls,
    order: mix.order,
    gain: mix.gain,
    guarantee: mix.guarantee,
    change: isChanged ? { from: cell.base.calls.map(({ name }) => name), worth: cell.worth } : null,
    clips: cell.theirs
      .slice(0, 1)
      .flatMap(({ habit, places }) => clips.add(places, `${cell.plan.title}: ${habit.label}`)),
    note: noteOf(cell),
  };
}

function noteOf({ snaps, standsFor, base }: PlannedCell): string | null {
  const notes = [
    ...(standsFor === null ? [] : [standsFor]),
    ...(snaps === 0 ? ['not seen on this film: base calls'] : []),
    ...(base.calls.length === 0 ? ['no installed call can be weighed here'] : []),
  ];
  return notes.length === 0 ? null : notes.join('; ');
}
