import { nineOfTwelve } from '#domain/reports/report-sample.js';
import type { AnswerLine, ReportMix } from '#domain/reports/answers/report-answers-shape.js';
import { assembleRoundReport } from '#domain/reports/round-report.js';
import { answerSections } from './answer-sections.js';
import type { ReportNames } from './report-names.js';
import type { SectionBlock } from './section-shape.js';

const NAMES: ReportNames = {
  coachingPoint: () => null,
  player: () => 'Quiet Heron',
  event: () => null,
  game: () => null,
  video: () => null,
};

const answer = (label: string, count: number, words: string): AnswerLine => ({
  ...{ id: `answer/${label}`, label, installed: true, count, words: `${label}: ${words}`, plays: [] },
});

const stop = (name: string, mix: string): ReportMix['dial'][number] => ({ name, mix, words: `${name}: ${mix}; gains` });

const mix = (dial: ReportMix['dial']): ReportMix => ({
  ...{ id: 'mix/offense/1st and 10', side: 'offense', situation: '1st and 10', plays: 20, theirs: 'duo 20' },
  ...{ installed: true, dial, neverPays: [] },
});

function blocks(answers: readonly AnswerLine[], mixes: readonly ReportMix[]): readonly SectionBlock[] {
  const call = {
    ...{ id: 'call/duo', side: 'offense' as const, label: 'duo', words: '20 plays', answers, games: [] },
  };
  const report = {
    ...assembleRoundReport(nineOfTwelve()),
    answers: { restsOn: 'rests on 20 plays', calls: answers.length === 0 ? [] : [call], mixes },
  };
  return answerSections(report, NAMES).flatMap((section) => section.blocks);
}

describe('what has held them, on paper', () => {
  it('says in one line which of our calls nobody tried', () => {
    const [, , list] = blocks(
      [answer('Lantern', 0, 'never seen'), answer('Bellows', 3, 'met 3 times'), answer('Umbra', 0, 'never seen')],
      [],
    );
    expect(list?.kind === 'list' ? list.items.map(({ text }) => text) : []).toEqual([
      'ours: Bellows: met 3 times',
      'ours that nobody has been seen to try against it: Lantern, Umbra',
    ]);
  });

  it('says once what is the same safe and bold', () => {
    const cells = (dial: ReportMix['dial']): unknown => {
      const table = blocks([], [mix(dial)]).find(({ kind }) => kind === 'table');
      return table?.kind === 'table' ? table.rows[0]?.[2] : null;
    };
    expect(cells([stop('safe', 'Umbra 100 %'), stop('bold', 'Umbra 100 %')])).toEqual([
      'safe and bold alike: Umbra 100 %; gains',
    ]);
    expect(cells([stop('safe', 'Umbra 60 %, Bellows 40 %'), stop('bold', 'Umbra 100 %')])).toEqual([
      'safe: Umbra 60 %, Bellows 40 %; gains',
      'bold: Umbra 100 %; gains',
    ]);
  });
});
