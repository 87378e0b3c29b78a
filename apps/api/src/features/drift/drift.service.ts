import { Injectable } from '@nestjs/common';
import { seededRandom } from '#domain/statistics/seeded-random.js';
import { DIMENSION_NAMES } from '#domain/tendencies/dimension-names.js';
import { changeOfVersion } from '#domain/tendencies/drift/change-of-version.js';
import { DEFAULT_DRIFT, drift } from '#domain/tendencies/drift/drift.js';
import { EARLIER, RECENT } from '#domain/tendencies/drift/periods.js';
import { driftRestsOn } from '#domain/tendencies/words/drift-words.js';
import { restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type AskedGames, type Asking } from '../tendencies/tendency-answers.service.js';
import { cutOf, type Cut } from './drift-periods.js';
import { dimensionDrift, period, versionChange } from './drift-response.js';
import type { DriftQuery, DriftResponse, VersionChangeResponse } from './drift.dto.js';

/** Fixed, so that the same games give the same p-values. */
const SEED = 1;

@Injectable()
export class DriftService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<DriftQuery>): Promise<TaggedAnswer> {
    const { side, split, level, voice } = asking.query;
    return this.answers.answer('drift', asking, async ({ head, asked }): Promise<DriftResponse> => {
      const of = await asked();
      const cut = cutOf(asking.query, of.charts);
      const periods = cut.periodsOf(of.facts, of.charts);
      const settings = { ...DEFAULT_DRIFT, level, unit: cut.unit };
      const found = drift(of, DIMENSION_NAMES[side], periods, settings, seededRandom(SEED));
      const earlier = period(cut.earlier, of.facts, periods, EARLIER);
      const recent = period(cut.recent, of.facts, periods, RECENT);
      const rests = restsOnWords({ ...snapsAndGames(of.facts), about: null, gamesLeftOut: 0 });
      return {
        ...head,
        restsOn: [rests, ...driftRestsOn(earlier, recent, cut.unit)].join('; '),
        earlier,
        recent,
        unit: cut.unit,
        permutations: settings.permutations,
        level,
        seed: SEED,
        dimensions: found.map((dimension) => dimensionDrift(dimension, found, of.facts.plays, voice, cut.when)),
        versions: split === 'rules' ? versions(of, cut, asking.query) : null,
      };
    });
  }
}

function versions(of: AskedGames, cut: Cut, { side, voice }: DriftQuery): VersionChangeResponse[] {
  const { facts, field, charts, fieldCharts } = of;
  if (field === null) return [];
  const periods = cut.periodsOf(facts, charts);
  const fieldPeriods = cut.periodsOf(field.facts, fieldCharts);
  return changeOfVersion(of, DIMENSION_NAMES[side], periods, fieldPeriods).map((change) =>
    versionChange(change, facts.plays, voice),
  );
}
