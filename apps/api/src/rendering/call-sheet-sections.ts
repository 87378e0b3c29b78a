import { changedCells } from '#domain/call-sheet/call-sheet.js';
import type { CallSheet, SheetCell, SheetSide } from '#domain/call-sheet/call-sheet-shape.js';
import { counted, percent, percentRange } from '#domain/tendencies/words/count-words.js';
import {
  adviceWord,
  callsWords,
  figureLines,
  habitWords,
  lateGameLines,
  LATE_GAME_NOTE,
  leanWords,
  orderWords,
  tryWords,
  wentWords,
  type ReadCallSheet,
} from './call-sheet-words.js';
import { placeIn } from './report-film.js';
import { CAUTION, type ReadableReport } from './report-sections.js';
import type { SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';
import { WITHHELD, WITHHELD_GAME } from './report-names.js';

/** A call sheet as it is read, before any format. */
export function readableCallSheet(read: ReadCallSheet): ReadableReport {
  const { sheet, names } = read;
  return {
    title: `Call sheet against ${names.player(read.opponentId) ?? WITHHELD}`,
    sections: [
      { title: 'Who and when', blocks: headBlocks(read) },
      { title: 'Our offense', blocks: sideBlocks(sheet.offense) },
      { title: 'Our fourth downs', blocks: stripBlocks(sheet) },
      { title: 'Late in the game', blocks: [text(LATE_GAME_NOTE), charted(lateGameLines(sheet))] },
      { title: 'Our defense', blocks: sideBlocks(sheet.defense) },
      { title: 'Their fourth downs', blocks: [charted(sheet.theirFourthDowns.map(wentWords))] },
      { title: 'Clips', blocks: clipBlocks(read) },
      { title: 'What the cells rest on', blocks: evidenceBlocks(sheet) },
      { title: 'Our figures', blocks: [charted(figureLines(sheet.figures))] },
      { title: 'Before you use this', blocks: CAUTION },
    ],
  };
}

function changesWords(changes: number): string {
  if (changes === 0) return 'no change from the base sheet is worth making against them';
  return `${counted(changes, 'change')} from the base sheet, marked CHANGED`;
}

export function headBlocks({ sheet, names, eventId, round, playerId }: ReadCallSheet): SectionBlock[] {
  const changes = changedCells(sheet).length;
  return [
    text(
      `For ${names.player(playerId) ?? WITHHELD}; ${names.event(eventId) ?? WITHHELD}${round === null ? '' : `, ${round}`}. ` +
        `Mixes ${leanWords(sheet.lean)}; ${changesWords(changes)}.`,
    ),
    text(
      'Call a cell in the order printed, then from its start again. "5 of 7" is what they did there, of what was seen.',
    ),
  ];
}

function sideBlocks({ cells }: SheetSide): SectionBlock[] {
  return [
    {
      kind: 'table',
      headers: ['Situation', 'They', 'Clips', 'We call'],
      rows: cells.map((cell) => [
        [cell.title],
        cell.theirs.length === 0 ? ['-'] : cell.theirs.map(habitWords),
        [cell.clips.join(', ')],
        [callsWords(cell), ...orderLines(cell), ...changeLines(cell), ...(cell.note === null ? [] : [cell.note])],
      ]),
    },
  ];
}

function orderLines(cell: SheetCell): string[] {
  const order = orderWords(cell);
  return order === '' ? [] : [`in the order ${order}`];
}

function changeLines({ change }: SheetCell): string[] {
  return change === null ? [] : [`CHANGED, base: ${change.from.join(', ')}`];
}

function stripBlocks({ fourthDowns, figures }: CallSheet): SectionBlock[] {
  const { distances, spots, advice } = fourthDowns;
  return [
    charted(
      distances.map(({ name }, row) => {
        const cells = spots.flatMap((spot, column) => {
          const word = adviceWord(advice[row]?.[column] ?? null);
          return word === '' ? [] : [`${spot.name} ${word}`];
        });
        return `${name} to go: ${cells.join(', ')}`;
      }),
    ),
    text('While score and clock do not matter. Two in one cell are as good as equal.'),
    text(`${tryWords(figures)}.`),
  ];
}

function clipBlocks({ sheet, names }: ReadCallSheet): SectionBlock[] {
  if (sheet.clips.length === 0) return [text('No play has a second of the video.')];
  const items = sheet.clips.map(({ play, gameId, second, reason }) => {
    const { at, address } = placeIn(names.video(play.chartId), second);
    return { text: `${at} of ${names.game(gameId) ?? WITHHELD_GAME}: ${reason}`, url: address };
  });
  return [{ kind: 'list', ordered: true, items }];
}

function evidenceBlocks({ offense, defense }: CallSheet): SectionBlock[] {
  return [offense, defense].flatMap(({ side, cells }) => [
    text(side === 'offense' ? 'Our offense against their defense:' : 'Our defense against their offense:'),
    charted(cells.map(evidenceWords)),
  ]);
}

/** What a cell rests on, with its intervals. */
export function evidenceWords({ title, snaps, games, theirs, gain, guarantee, change }: SheetCell): string {
  const habits = theirs.map((habit) => `${habitWords(habit)} (${percentRange(habit.interval)})`);
  const parts = [
    `${title}: ${snaps} snaps of ${games} games`,
    ...habits,
    ...(gain === null
      ? []
      : [
          `our gain ${gain.mean.toFixed(2)} points a play if they stay (${gain.interval.lower.toFixed(2)} to ${gain.interval.upper.toFixed(2)})`,
        ]),
    ...(guarantee === null ? [] : [`at least ${guarantee.toFixed(2)} if they adjust`]),
    ...(change === null ? [] : [`the change is worth ${change.worth.toFixed(2)} a play`]),
  ];
  return parts.join('; ');
}

export function confidenceWords(confidence: number): string {
  return `Ranges are ${percent(confidence)} intervals. Gains are beside the mean of the situation, players of the mean on both sides.`;
}

function charted(items: readonly string[]): SectionBlock {
  return items.length === 0 ? text('Nothing is charted.') : list(items);
}
