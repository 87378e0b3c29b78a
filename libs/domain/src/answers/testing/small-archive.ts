import { starterVocabulary } from '../../charting/vocabulary.js';
import { drawNormal } from '../../statistics/draw-gamma.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { chartedFacts, type ChartedRow } from '../../tendencies/charted-rows.js';
import { fitAnswerModel, type AnswerModel } from '../answer-model.js';
import type { MenuCall } from '../options.js';

// Test support: an archive written by hand. In game g player g has the ball and player g + 1, round the table, defends.

export const VOCABULARY = starterVocabulary();
export const idOf = (code: string): number => VOCABULARY.idOfCode(code);

/** A play with the expected points that it added. */
export type WorthRow = ChartedRow & { readonly worth?: number };

/** A snap on first and ten of which the call, what met it and what it was worth are known. */
export function snap(concept: string, coverage: string | null, worth: number, more: ChartedRow = {}): WorthRow {
  return {
    ...{ down: 1, distance: 10, yardsToGoal: 60, concept: `concept.${concept}`, snapResult: 'snapResult.rushed' },
    ...{ yardsGained: worth > 0 ? 6 : 1, worth },
    ...(coverage === null ? {} : { coverage: `coverage.${coverage}` }),
    ...more,
  };
}

export function modelOf(...games: readonly (readonly WorthRow[])[]): AnswerModel {
  const worths = games.flatMap((rows) => rows.map(({ worth }) => worth ?? 0));
  const facts = { ...chartedFacts(...games), pointsAdded: Float64Array.from(worths) };
  const game = Int32Array.from(facts.plays.chartIndex);
  return fitAnswerModel({
    facts,
    offenseOf: game,
    defenseOf: game.map((of) => (of + 1) % games.length),
    players: games.length,
    vocabulary: VOCABULARY,
  });
}

export function menuCall(side: MenuCall['side'], of: Partial<MenuCall>): MenuCall {
  return {
    ...{ id: 'call', side, name: 'Lantern', rehearsed: true, byCheck: false, conceptId: null, formationId: null },
    ...{ frontId: null, coverageId: null, pressureId: null },
    ...of,
  };
}

/**
 * Ten games of ten players, each pair of call and answer three times a game: mesh loses 0.6 points against cover 3 sky and
 * gains 0.6 against cover 1; everything else is worth nothing. Play by play a standard deviation of half a point, so that
 * what was planted is beyond doubt.
 */
export function heldMesh(): AnswerModel {
  const random = seededRandom(11);
  const worth = (concept: string, coverage: string): number =>
    concept !== 'mesh' ? 0 : coverage === 'cover-3-sky' ? -0.6 : coverage === 'cover-1' ? 0.6 : 0;
  const games = Array.from({ length: 10 }, () =>
    ['mesh', 'inside-zone', 'power', 'stick'].flatMap((concept) =>
      ['cover-3-sky', 'cover-1', 'cover-4'].flatMap((coverage) =>
        Array.from({ length: 3 }, () => snap(concept, coverage, worth(concept, coverage) + 0.5 * drawNormal(random))),
      ),
    ),
  );
  return modelOf(...games);
}
