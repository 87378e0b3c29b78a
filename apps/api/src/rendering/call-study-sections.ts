import { pointWords, POINTS_PART } from './coaching-sections.js';
import { CAUTION, type ReadableReport } from './report-sections.js';
import type { ReportFilm } from './report-film.js';
import { WITHHELD_GAME, type PointText, type ReportNames } from './report-names.js';
import type { SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';

/** A play as a study cites it. */
export interface StudiedPlay {
  readonly chartId: string;
  readonly playNumber: number;
}

/** A sentence and the plays behind it. */
export interface StudiedLine {
  readonly words: string;
  readonly plays: readonly StudiedPlay[];
}

interface StudiedShare {
  readonly share: number;
  readonly interval: { readonly lower: number; readonly upper: number };
}

/** A call study as it is read; every text may hold hostile characters and is escaped by the format. */
export interface ReadCallStudy {
  readonly side: string;
  readonly confidence: number;
  readonly restsOn: string;
  readonly call: { readonly label: string };
  readonly usage: {
    readonly words: string;
    readonly byEvent: readonly {
      readonly event: { readonly name: string };
      readonly count: number;
      readonly known: number;
      readonly users: number;
      readonly players: number;
      readonly share: StudiedShare | null;
      readonly successes: number;
      readonly trials: number;
      readonly success: StudiedShare | null;
    }[];
  };
  readonly giveaways: { readonly words: string; readonly found: readonly StudiedLine[] };
  readonly situations: readonly {
    readonly situation: string | null;
    readonly words: string;
    readonly results: {
      readonly successes: number;
      readonly trials: number;
      readonly success: StudiedShare | null;
      readonly fieldSuccess: { readonly share: number } | null;
    };
  }[];
  readonly games: readonly (StudiedLine & { readonly gameId: string })[];
  readonly answers: readonly (StudiedLine & { readonly label: string; readonly menuCall: object | null })[];
  readonly moves: readonly StudiedLine[];
  readonly film: readonly {
    readonly game: string | null;
    readonly at: string;
    readonly address: string | null;
    readonly playNumber: number;
    readonly reason: string;
  }[];
  readonly coachingPoints: readonly (PointText & { readonly revision: number })[];
}

/** The same with what only a page shows. */
export interface PageCallStudy extends ReadCallStudy {
  /** Of every play that is cited, the games in the order of their numbers. */
  readonly charts: readonly { readonly chartId: string; readonly gameId: string }[];
  readonly names: ReportNames;
  readonly reportFilm: ReportFilm;
}

export type StudyPart = 'usage' | 'giveaways' | 'situations' | 'games' | 'answers' | 'film' | 'points';

/** What the parts of a study are called; the page gives each its own address. */
export function studyTitles({ side }: ReadCallStudy): Readonly<Record<StudyPart, string>> {
  const offense = side === 'offense';
  return {
    usage: 'Who uses it',
    giveaways: 'What gives it away',
    situations: 'What it gives, by situation',
    games: offense ? 'Games that held it, the best first' : 'Games that beat it, the best first',
    answers: offense ? 'How it was answered' : 'What was called against it',
    film: 'Film to watch, in this order',
    points: POINTS_PART.title,
  };
}

/** What the lists of a study rest on, and what they cannot say. */
export const HELD_NOTE =
  'Beyond what the same call of the same offense gets from everybody in the same situations, drawn towards the other games, so that one lucky snap does not lead.';
export const ANSWERED_NOTE =
  'Calls are chosen, not drawn by lot: what went with an answer need not have come from it. Judged on the call from every formation, since none is seen in the huddle.';

export const MOVES_TITLE = 'Moved at the line, or done by hand';

/** A call study in words, in reading order. */
export function readableCallStudy(study: ReadCallStudy): ReadableReport {
  const titles = studyTitles(study);
  return {
    title: `Call study: ${study.call.label}`,
    sections: [
      { title: 'What this is', blocks: [text(`${headWords(study)}.`)] },
      { title: titles.usage, blocks: usageBlocks(study) },
      {
        title: titles.giveaways,
        blocks: [text(`${study.giveaways.words}.`), ...lines(study.giveaways.found)],
      },
      { title: titles.situations, blocks: [situationTable(study)] },
      { title: titles.games, blocks: [text(HELD_NOTE), ...lines(study.games)] },
      {
        title: titles.answers,
        blocks: [
          text(ANSWERED_NOTE),
          ...lines(study.answers),
          ...(study.moves.length === 0 ? [] : [text(`${MOVES_TITLE}:`), ...lines(study.moves)]),
        ],
      },
      { title: titles.film, blocks: filmBlocks(study) },
      ...(study.coachingPoints.length === 0 ? [] : [{ title: titles.points, blocks: pointBlocks(study) }]),
      { title: 'Before you use this', blocks: CAUTION },
    ],
  };
}

export function headWords({ side, restsOn, confidence }: ReadCallStudy): string {
  return `A call of the ${side}, in everybody's hands: ${restsOn}. Ranges are ${Math.round(100 * confidence)} % intervals`;
}

function usageBlocks({ usage }: ReadCallStudy): SectionBlock[] {
  return [
    text(`${usage.words}.`),
    {
      kind: 'table',
      headers: ['Event', 'Used', 'Players', 'Success'],
      rows: usage.byEvent.map(({ event, count, known, users, players, successes, trials }) => [
        [event.name],
        [`${count} of ${known}`],
        [`${users} of ${players}`],
        [`${successes} of ${trials}`],
      ]),
    },
  ];
}

export function situationTable({ situations }: ReadCallStudy): SectionBlock {
  return {
    kind: 'table',
    headers: ['Situation', 'What came of it'],
    rows: situations.map(({ situation, words }) => [[situation ?? 'all snaps'], [words]]),
  };
}

function filmBlocks({ film }: ReadCallStudy): SectionBlock[] {
  if (film.length === 0) return [text('No play of these games has a second of the video.')];
  const items = film.map(({ game, at, address, playNumber, reason }) => ({
    text: `${at} of ${game ?? WITHHELD_GAME}, play ${playNumber}: ${reason}`,
    url: address,
  }));
  return [{ kind: 'list', ordered: true, items }];
}

export function pointBlocks({ coachingPoints }: Pick<ReadCallStudy, 'coachingPoints'>): SectionBlock[] {
  return [list(coachingPoints.map(pointWords))];
}

function lines(of: readonly StudiedLine[]): SectionBlock[] {
  return of.length === 0 ? [] : [list(of.map(({ words }) => words))];
}
