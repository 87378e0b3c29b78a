import { resultWords, shareWords, valueWords } from '#domain/reports/claim-words.js';
import { counted, percent } from '#domain/tendencies/words/count-words.js';
import type {
  ResultClaim,
  RoundReport,
  ShareClaim,
  SideReport,
  SituationReport,
  StandsOut,
} from '#domain/reports/round-report-shape.js';
import type { NextOpponents, RoundAhead } from '#domain/reports/next-opponents-shape.js';
import { answerSections } from './answer-sections.js';
import { coachingSections } from './coaching-sections.js';
import { untoldBlocks, UNTOLD_PART } from './could-not-tell.js';
import { habitSections } from './habit-sections.js';
import { dayWords } from './plain-words.js';
import { placeIn } from './report-film.js';
import { WITHHELD, WITHHELD_GAME, type ReportNames } from './report-names.js';
import type { Section, SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';

/** A report as it is read, before any format: every text may hold hostile characters and is escaped by the format. */
export interface ReadableReport {
  readonly title: string;
  readonly sections: readonly Section[];
}

export const FILM_TITLE = 'Film to watch, in this order';

/** The words of a report, in reading order. Ids become names here, under the reader's rights. */
export function readableReport(report: RoundReport, names: ReportNames): ReadableReport {
  return {
    title: `Scouting report: ${names.player(report.playerId) ?? WITHHELD}`,
    sections: [
      { title: 'Who and when', blocks: headBlocks(report, names) },
      ...(report.next === undefined ? [] : [{ title: 'Who is next', blocks: nextBlocks(report.next, names) }]),
      ...coachingSections(report, names),
      ...standsOutSections(report),
      ...habitSections(report.habits),
      ...answerSections(report, names),
      ...(report.film.length === 0 ? [] : [{ title: FILM_TITLE, blocks: filmBlocks(report, names) }]),
      ...sideSections('Offense', report.offense),
      ...sideSections('Defense', report.defense),
      { title: UNTOLD_PART.title, blocks: untoldBlocks(report, names) },
      { title: 'What this rests on', blocks: chartBlocks(report, names) },
      { title: 'Before you use this', blocks: CAUTION },
    ],
  };
}

/** Stands at the end of every report. */
export const CAUTION: readonly SectionBlock[] = [
  text("The event's own rules decide whether aids like this may be used during play."),
  text(
    "Footage and data of other people are used under the event's rules and the law of the place: keep this report to those who may see it.",
  ),
];

/** The odds of the next match, those who may come instead, and the way ahead. */
export function nextBlocks({ certain, candidates, ahead }: NextOpponents, names: ReportNames): SectionBlock[] {
  const who = (playerId: string): string => names.player(playerId) ?? WITHHELD;
  const odds = candidates.map(({ playerId, probability, standardError, share }) => {
    const give = standardError === null ? '' : `, give or take ${percent(2 * standardError)}`;
    return `${who(playerId)}: ${percent(probability)}${give}; ${percent(share)} of the time to prepare`;
  });
  const others = candidates.slice(1).filter(({ facts }) => facts.length > 0);
  return [
    ...(certain
      ? [text('The bracket says who it is.')]
      : [text('The opponent is still open; this report is on the most probable one:'), ...listed(odds)]),
    ...others.flatMap(({ playerId, facts }) => titled(`If it is ${who(playerId)}:`, facts)),
    ...titled(
      'The way ahead, by odds:',
      ahead.map((round) => aheadWords(round, who)),
    ),
  ];
}

/** "semifinal (16 %): Mossback 12 %, Heron 4 %" */
function aheadWords({ round, plays, opponents }: RoundAhead, who: (playerId: string) => string): string {
  const each = opponents.map(({ playerId, probability }) => `${who(playerId)} ${smallPercent(probability)}`);
  return `${round} (${smallPercent(plays)}): ${each.join(', ')}`;
}

/** What may happen is never told as nothing. */
export function smallPercent(probability: number): string {
  return probability > 0 && probability < 0.005 ? 'under 1 %' : percent(probability);
}

/** Which opponent, and on what the report rests in short. */
export function headBlocks(
  { eventId, round, madeAt, asOf, sample, settings }: RoundReport,
  names: ReportNames,
): SectionBlock[] {
  const event = eventId === null ? null : `Event: ${names.event(eventId) ?? WITHHELD}`;
  const when = [
    event,
    round === null ? null : `round: ${round}`,
    `made on ${dayWords(madeAt)}`,
    asOf === undefined ? null : `as things stood before ${asOf}`,
  ];
  const importance = new Map<string, number>();
  for (const chart of sample.charts) {
    const kind = chart.importance ?? 'of unknown importance';
    importance.set(kind, (importance.get(kind) ?? 0) + 1);
  }
  const counts = [...importance].map(([kind, charts]) => `${charts} ${kind}`).join(', ');
  const newest = sample.newestGame === null ? '' : `, the newest of ${dayWords(sample.newestGame)}`;
  return [
    text(`${when.filter((part) => part !== null).join('; ')}.`),
    text(
      `${counted(sample.games, 'game')} charted${counts === '' ? '' : ` (${counts})`}${newest}. ` +
        `Snaps that count: ${sample.offenseSnaps} on offense, ${sample.defenseSnaps} on defense.`,
    ),
    ...(sample.rulesVersions.length > 1
      ? [text(`The rules changed in between: ${sample.rulesVersions.join(', ')}. Habits may have moved with them.`)]
      : []),
    text(
      `Ranges are ${percent(settings.confidence)} intervals of the counts as they stand. Below ten plays there are counts only. ` +
        '"Field" is everybody else in view.',
    ),
  ];
}

/** What "established" is worth: each kind of finding lets chance through seldom, and a report has many kinds. */
export const BY_CHANCE: readonly SectionBlock[] = [
  text(
    'Established leaves room for chance: of a hundred simulated reports on players who do nothing but what everybody does, ' +
      'thirty to forty established something, mostly in one line or two. The more hangs on a line, the more its plays are worth a look.',
  ),
];

function chartBlocks({ sample }: RoundReport, names: ReportNames): SectionBlock[] {
  const charts = sample.charts.map(({ gameId, revision, rulesVersion }) => {
    const rules = rulesVersion === null ? '' : `, rules ${rulesVersion}`;
    return `${names.game(gameId) ?? WITHHELD_GAME}: revision ${revision} of its chart${rules}`;
  });
  return charts.length === 0 ? [text('No chart of this player is in view.')] : [...listed(charts), ...BY_CHANCE];
}

/** More leads than this are a list to get lost in. */
export const LEADS_A_SIDE = 5;

function standsOutSections({ offense, defense }: RoundReport): Section[] {
  const of = (name: string, { standsOut }: SideReport): SectionBlock[] => [
    ...titled(`${name}:`, standsOut.filter(({ established }) => established).map(standsOutWords)),
    ...titled(
      `${name}, leads that this sample does not prove:`,
      standsOut
        .filter(({ established }) => !established)
        .slice(0, LEADS_A_SIDE)
        .map(standsOutWords),
    ),
  ];
  const blocks = [...of('Offense', offense), ...of('Defense', defense)];
  const title = 'First of all: what stands out from the field';
  return blocks.length === 0 ? [] : [{ title, blocks }];
}

/** A situation of fewer snaps is only named, among what could not be told. */
const FEWEST_SNAPS = 3;

export function seenSituations({ bySituation }: SideReport): SituationReport[] {
  return bySituation.filter(({ snaps }) => snaps >= FEWEST_SNAPS);
}

/** Neither strong nor weak anywhere, as far as the sample shows. */
export function isOrdinary({ strong, weak }: SideReport): boolean {
  return strong.length + weak.length === 0;
}

/** What stands for a side of which nothing is charted. */
export const NO_SNAP = 'No snap of this side is charted: nothing is known, which is not zero.';

function sideSections(name: string, side: SideReport): Section[] {
  if (side.snaps === 0) {
    return [{ title: name, blocks: [text(NO_SNAP)] }];
  }
  const against = side.side === 'defense' ? ' (success of the offenses against it)' : '';
  return [
    { title: `${name}: most used, all snaps`, blocks: listed(side.mostUsed.map(overallWords)) },
    ...situationSections(name, seenSituations(side)),
    ...(isOrdinary(side)
      ? []
      : [
          {
            title: `${name}: strong and weak${against}`,
            blocks: [...results('Strong', side.strong), ...results('Weak', side.weak)],
          },
        ]),
  ];
}

function situationSections(name: string, situations: readonly SituationReport[]): Section[] {
  if (situations.length === 0) return [];
  const rows = situations.map(({ label, snaps, claims, result }) => [
    [label],
    [`${snaps}`],
    [
      ...claims.map((claim) => `${claim.dimensionLabel}: ${claim.label}, ${shareWords(claim)}`),
      ...(result === null ? [] : [`success: ${resultWords(result)}`]),
    ],
  ]);
  const headers = ['Situation', 'Snaps', 'Most used'];
  return [{ title: `${name}: by situation`, blocks: [{ kind: 'table', headers, rows }] }];
}

function standsOutWords({ claim, direction }: StandsOut): string {
  return `${claim.situation}, ${claim.dimensionLabel}: ${claim.label} ${direction} often, ${shareWords(claim)}`;
}

function overallWords(claim: ShareClaim): string {
  return `${valueWords(claim)}: ${shareWords(claim)}`;
}

function results(title: string, claims: readonly ResultClaim[]): SectionBlock[] {
  if (claims.length === 0) return [text(`${title}: nothing beyond the ordinary on this sample.`)];
  return [text(`${title}:`), ...listed(claims.map(resultLine))];
}

function resultLine(claim: ResultClaim): string {
  return `${valueWords(claim)}: ${resultWords(claim)}`;
}

function filmBlocks({ film }: RoundReport, names: ReportNames): SectionBlock[] {
  const items = film.map(({ play, gameId, second, reason }) => {
    const { at, address } = placeIn(names.video(play.chartId), second);
    const game = names.game(gameId) ?? WITHHELD_GAME;
    return { text: `${at} of ${game}, play ${play.playNumber}: ${reason}`, url: address };
  });
  return [{ kind: 'list', ordered: true, items }];
}

function titled(title: string, items: readonly string[]): SectionBlock[] {
  return items.length === 0 ? [] : [text(title), ...listed(items)];
}

function listed(items: readonly string[]): SectionBlock[] {
  return items.length === 0 ? [] : [list(items)];
}
