import type { CountedLine, ReportCard } from '#domain/report-card/report-card-shape.js';
import { differenceWords, FORETOLD_WORDS } from '#domain/report-card/words.js';
import { dayWords } from './plain-words.js';
import { CAUTION, type ReadableReport } from './report-sections.js';
import type { SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';
import { WITHHELD, WITHHELD_GAME } from './report-names.js';

/** A report card as it is read; every text may hold hostile characters and is escaped by the format. */
export interface ReadReportCard extends Omit<ReportCard, 'games'> {
  /** Of the report. */
  readonly id: string;
  /** The handle as it is now; null where the reader may not know it. */
  readonly opponent: string | null;
  readonly event: string | null;
  readonly round: string | null;
  readonly madeAt: string;
  readonly asOf: string | null;
  readonly confidence: number;
  readonly games: readonly { readonly gameId: string; readonly name: string | null }[];
}

export interface CardSection {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly SectionBlock[];
}

/** A report card in words, in reading order. */
export function readableReportCard(card: ReadReportCard): ReadableReport {
  return {
    title: cardTitle(card),
    sections: [
      { title: 'What this is', blocks: headBlocks(card) },
      ...cardSections(card),
      { title: 'Before you use this', blocks: CAUTION },
    ],
  };
}

export function cardTitle({ opponent }: ReadReportCard): string {
  return `Report card: ${opponent ?? WITHHELD}`;
}

export function headBlocks({
  event,
  round,
  madeAt,
  asOf,
  awaited,
  verdict,
  games,
  confidence,
}: ReadReportCard): SectionBlock[] {
  const parts = [
    event,
    round === null ? null : `round: ${round}`,
    `report made on ${dayWords(madeAt)}`,
    asOf === null ? null : `as things stood before ${asOf}`,
  ];
  return [
    text(
      `${parts.filter((part) => part !== null).join('; ')}. Ranges are ${Math.round(100 * confidence)} % intervals.`,
    ),
    text(verdict),
    ...(awaited === null ? [] : [text(`Awaited: ${awaited}`)]),
    ...(games.length === 0 ? [] : [list(games.map(({ name }) => name ?? WITHHELD_GAME))]),
  ];
}

/** Parts that have nothing to say are left out, but for what a reader would look for. */
export function cardSections(card: ReadReportCard): CardSection[] {
  const { awaited, judged: judgedBy, scores, tells, answers, planned, apart, calibration } = card;
  const judged = awaited === null;
  return [
    ...(judged
      ? [
          {
            id: 'scores',
            title: 'The probabilities, against what happened',
            blocks:
              judgedBy === null || scores.length === 0
                ? [text(NO_TABLES)]
                : [text(judgedBy), text(SCORES_NOTE), scoresTable(scores)],
          },
          {
            id: 'tells',
            title: 'Tells that held or broke',
            blocks: tells.length === 0 ? [text('The report listed no tell.')] : [list(tells.map(({ words }) => words))],
          },
          {
            id: 'answers',
            title: 'Answers that were used, and what they gave',
            blocks:
              answers.length === 0
                ? [text('The report recommended no answer that can be looked for.')]
                : [text(ANSWERS_NOTE), list(answerLines(answers))],
          },
          {
            id: 'planned',
            title: 'Planned against called',
            blocks:
              planned === null
                ? [text('The own call log says nothing of these games, so plan and execution cannot be told apart.')]
                : [list(planned.sides.map(({ words }) => words))],
          },
          { id: 'apart', title: 'Fouls, kicks and decisions, apart from all that', blocks: apartBlocks(apart) },
        ]
      : []),
    { id: 'calibration', title: "Calibration over all of the clan's reports", blocks: [text(calibration.words)] },
  ];
}

const NO_TABLES =
  'The report was made before reports kept their probabilities, so they cannot be scored. Reports made from now on can.';
/** How to read the scores. */
const SCORES_NOTE =
  "Log loss: how surprised a probability was by each call, less is better. Beside the forecast stands what it would have said of a player of whom nothing is known; beside the printed shares, what the other players' shares say. Below 0 a difference speaks for what is known of this player; the two kinds are on the same plays, so their log losses can be compared too.";

function scoresTable(scores: ReadReportCard['scores']): SectionBlock {
  return {
    kind: 'table',
    headers: ['Foretold', 'By', 'Log loss', 'Beside it', 'Plays', 'Difference'],
    rows: scores.map(({ label, by, report, baseline, plays, snaps, logLossDifference }) => {
      const { name, against } = FORETOLD_WORDS[by];
      const { figures, verdict } = differenceWords(logLossDifference);
      const beside = `${baseline.logLoss.toFixed(3)}, ${against}`;
      return [[label], [name], [report.logLoss.toFixed(3)], [beside], [`${plays} of ${snaps}`], [figures, verdict]];
    }),
  };
}

const ANSWERS_NOTE =
  'Points a play from the side with the ball; what was expected is beside the mean of the situation. Calls are chosen, not drawn by lot: what went with an answer need not have come from it.';

/** Those that were used one by one; the others together, call by call, since there is nothing to say of each. */
function answerLines(answers: ReadReportCard['answers']): string[] {
  const unused = new Map<string, { chances: number; answers: string[] }>();
  for (const { plays, call, side, chances, answer } of answers) {
    if (plays > 0) continue;
    const key = `${call} (their ${side})`;
    const line = unused.get(key) ?? { chances, answers: [] };
    line.answers.push(answer);
    unused.set(key, line);
  }
  return [
    ...answers.filter(({ plays }) => plays > 0).map(({ words }) => words),
    ...[...unused].map(([call, line]) => {
      const met =
        line.chances === 0
          ? 'never came with what met it seen'
          : `came ${line.chances === 1 ? 'once' : `${line.chances} times`} with what met it seen`;
      return `${call} ${met}; not used: ${line.answers.join(', ')}`;
    }),
  ];
}

function apartBlocks(apart: ReadReportCard['apart']): SectionBlock[] {
  const rows = (['fouls', 'kicks', 'decisions'] as const).flatMap((what) =>
    apart[what].map((line) => [[what], [whoseWords(line)], [line.words]]),
  );
  if (rows.length === 0) return [text('None was charted.')];
  return [{ kind: 'table', headers: ['What', 'Whose', 'Counts'], rows }];
}

function whoseWords({ whose }: CountedLine): string {
  return whose === 'opponent' ? 'the opponent' : 'the other side';
}
