import type { AnsweredCall, ReportMix } from '#domain/reports/answers/report-answers-shape.js';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { pointsOnClaim } from './coaching-sections.js';
import { upperFirst } from './plain-words.js';
import type { ReportNames } from './report-names.js';
import type { Section, SectionBlock } from './section-shape.js';
import { list, text } from './blocks.js';

/** Where a page links to, and what the sections are called. */
const ANSWER_PARTS = [
  { id: 'answers', title: 'What has held them, what has beaten them' },
  { id: 'call-mix', title: 'How to mix our calls' },
] as const;

/** Situations of a side on paper; the report as data has all of them. */
const MOST_SITUATIONS = 6;

/** No sections for reports that were frozen before there were answers, and none where there is nothing to say. */
export function answerSections(report: RoundReport, names: ReportNames): (Section & { readonly id: string })[] {
  const { answers } = report;
  if (answers === undefined) return [];
  const [held, mix] = ANSWER_PARTS;
  const sections = [
    { ...held, blocks: answers.calls.flatMap((call) => callBlocks(call, report, names)) },
    { ...mix, blocks: mixBlocks(answers.mixes) },
  ];
  const restsOn = text(`${upperFirst(answers.restsOn)}.`);
  return sections
    .filter(({ blocks }) => blocks.length > 0)
    .map((section) => (section.id === held.id ? { ...section, blocks: [restsOn, ...section.blocks] } : section));
}

function callBlocks(
  { id, side, label, words, answers, games }: AnsweredCall,
  report: RoundReport,
  names: ReportNames,
): SectionBlock[] {
  const name = (identity: string | null): string =>
    (identity === null ? null : names.player(identity)) ?? 'name withheld';
  const notes = (claimId: string, on: string): string[] =>
    pointsOnClaim(report, names, claimId).map((note) => `our coaching point${on}: ${note}`);
  // Each says no more than that nobody tried it; the report as data has what is believed of them.
  const untried = answers.filter(({ installed, count }) => installed && count === 0);
  const tried = answers.filter((answer) => !untried.includes(answer));
  return [
    text(`${side === 'offense' ? 'Their' : 'Against their'} ${label} (${words}):`),
    list([
      ...notes(id, ''),
      ...tried.flatMap(({ id: ofAnswer, label: answer, installed, words: of }) => [
        `${installed ? 'ours' : 'to install'}: ${of}`,
        ...notes(ofAnswer, ` on ${answer}`),
      ]),
      ...(untried.length === 0
        ? []
        : [
            `ours that nobody has been seen to try against it: ${untried.map(({ label: answer }) => answer).join(', ')}`,
          ]),
      ...untried.flatMap(({ id: ofAnswer, label: answer }) => notes(ofAnswer, ` on ${answer}`)),
      ...games.map(
        ({ offense, defense, words: of }) =>
          `${side === 'offense' ? 'held' : 'beaten'} in ${name(defense)} against ${name(offense)}: ${of}`,
      ),
    ]),
  ];
}

function mixBlocks(mixes: readonly ReportMix[]): SectionBlock[] {
  const table = (side: ReportMix['side'], title: string): SectionBlock[] => {
    const ofSide = mixes.filter((mix) => mix.side === side).slice(0, MOST_SITUATIONS);
    if (ofSide.length === 0) return [];
    return [
      text(title),
      {
        kind: 'table',
        headers: ['Situation', 'They call', 'Our mix', 'Always beaten'],
        rows: ofSide.map(({ situation, plays, theirs, dial, neverPays, installed }) => [
          [`${situation} (${plays})`],
          [theirs],
          [...(installed ? [] : ['nothing installed: the most frequent of the field']), ...endsOfDial(dial)],
          [neverPays.length === 0 ? '-' : neverPays.join(', ')],
        ]),
      },
    ];
  };
  if (mixes.length === 0) return [];
  return [
    text(
      'Safe holds whatever they do; bold is best against what they do now. Gains are ours, in expected points a play. ' +
        'Always beaten: another call of ours does better whatever they do. A call sheet may set one beside a single best ' +
        'call all the same, since a caller of one call is read.',
    ),
    ...table('offense', 'Our defense against their offense.'),
    ...table('defense', 'Our offense against their defense.'),
  ];
}

/** What holds whatever they do, and what is best against what they do now: in one where they are the same. */
function endsOfDial(dial: ReportMix['dial']): string[] {
  const [safe, bold] = [dial[0], dial.at(-1)];
  if (safe === undefined || bold === undefined) return [];
  if (safe.mix !== bold.mix) return [safe.words, bold.words];
  return [`${safe.name} and ${bold.name} alike${safe.words.slice(safe.name.length)}`];
}
