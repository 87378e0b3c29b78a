import type { HabitTopic, SilenceReason } from '#domain/reports/habits/habits-shape.js';
import { counted, FEWEST_FOR_PERCENT } from '#domain/tendencies/words/count-words.js';
import type { FilmToChart, RoundReport } from '#domain/reports/round-report-shape.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { list, text } from './blocks.js';
import { lowerFirst, upperFirst } from './plain-words.js';
import { WITHHELD_GAME, type ReportNames } from './report-names.js';
import type { SectionBlock } from './section-shape.js';

/** Where a page links to, and what the section is called. */
export const UNTOLD_PART = { id: 'not-known', title: 'What this film could not tell' } as const;

/** A field known on fewer than this share of the snaps is seldom known. */
const WELL_KNOWN = 0.5;

/** All that a report has nothing to say of, side by side in one paragraph each, and what to chart to change that. */
export function untoldBlocks(report: RoundReport, names: ReportNames): SectionBlock[] {
  const { sample } = report;
  const biased = sample.knownOn
    .filter(({ goesWithResult }) => goesWithResult)
    .map(
      ({ side, label, known, snaps }) =>
        `${side}, ${label}: known on ${known} of ${snaps}, and seen more often on one kind of result; its shares may mislead`,
    );
  const sides = (['offense', 'defense'] as const).flatMap((side) => sideWords(report, side));
  const whole = wholeWords(report);
  const untold = [...sides, ...(whole.length === 0 ? [] : [whole.join(' ')])];
  if (untold.length === 0 && biased.length === 0) {
    return [text('Every field asked for is known on half of the snaps or more.')];
  }
  return [
    ...untold.map(text),
    ...(biased.length === 0 ? [] : [text('Seen by result:'), list(biased)]),
    ...chartNextWords(report, names).map(text),
  ];
}

/** Topics that are told in their own place; the others are named here. What is an older report's says it itself. */
export function isTold({ silence }: HabitTopic): boolean {
  return silence === undefined || silence.reason === 'not found';
}

function sideWords(report: RoundReport, side: Side): string[] {
  const { snaps, games } = report[side];
  const topics = untoldTopics(report).filter((topic) => topic.side === side);
  const because = (reason: SilenceReason): string[] =>
    topics.filter(({ silence }) => silence?.reason === reason).map(({ title }) => lowerFirst(title));
  const fields = report.sample.knownOn.filter((field) => field.side === side);
  const thin = report.thinSituations.filter((situation) => situation.side === side);
  const clauses = [
    ...clause('never charted', [
      ...fields.filter(({ known }) => known === 0).map(({ label }) => label),
      ...because('not charted'),
    ]),
    ...clause(
      'seldom known',
      fields
        .filter(({ known }) => known > 0 && known < WELL_KNOWN * snaps)
        .map(({ label, known }) => `${label} on ${known}`),
    ),
    ...clause('too little film for', because('too little film')),
    ...clause('without anything to compare with', because('nothing to compare with')),
    ...clause(
      'thin situations',
      thin.map(({ label, snaps: seen }) => `${label}, ${counted(seen, 'snap')}`),
    ),
  ];
  if (clauses.length === 0) return [];
  const few = snaps < FEWEST_FOR_PERCENT ? ', so little that only counts are told' : '';
  return [`${upperFirst(side)}, ${counted(snaps, 'snap')} of ${counted(games, 'game')}${few}. ${clauses.join(' ')}`];
}

function clause(head: string, items: readonly string[]): string[] {
  return items.length === 0 ? [] : [`${upperFirst(head)}: ${items.join('; ')}.`];
}

/** What belongs to neither side. */
function wholeWords({ answers, film, offense, defense }: RoundReport): string[] {
  const charted = offense.snaps + defense.snaps > 0;
  return [
    ...(answers === undefined || answers.calls.length > 0 ? [] : [`Answers to their calls: ${answers.restsOn}.`]),
    ...(answers === undefined || answers.mixes.length > 0
      ? []
      : ['How to mix our calls: too little is charted to mix them against.']),
    ...(charted && film.length === 0 ? ['Film to watch: no play of the evidence has a second of the video.'] : []),
  ];
}

function chartNextWords(report: RoundReport, names: ReportNames): string[] {
  const { chartNext = [] } = report;
  const missing = new Set(untoldTopics(report).flatMap(({ silence }) => silence?.toChart ?? []));
  const film = chartNext.map((part) => filmWords(part, names));
  return [
    ...(film.length === 0 ? [] : [`To change that, chart next: ${film.join('; then ')}.`]),
    ...(missing.size === 0
      ? []
      : [
          `${film.length === 0 ? 'To change that, add' : 'And add'} to the charts there are: ${[...missing].map(fieldWords).join(', ')}.`,
        ]),
  ];
}

function filmWords({ gameId, what, side, fields, plays, minutes }: FilmToChart, names: ReportNames): string {
  const game = names.game(gameId) ?? WITHHELD_GAME;
  return `${what} of their ${side} in ${game}, ${fields} (about ${counted(plays, 'play')}, ${counted(Math.max(1, Math.round(minutes)), 'minute')})`;
}

/** `preSnapAdjustments`: "pre snap adjustments". */
function fieldWords(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

function untoldTopics({ habits }: RoundReport): HabitTopic[] {
  if (habits === undefined) return [];
  return [...habits.givesAway, ...habits.sequences, ...habits.changed].filter((topic) => !isTold(topic));
}
