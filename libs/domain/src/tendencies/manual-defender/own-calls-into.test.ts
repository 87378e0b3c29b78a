import type { MenuCall } from '../../answers/options.js';
import { starterVocabulary } from '../../charting/vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { DEFAULT_LEFT_AREAS, type LeftArea } from './left-areas.js';
import { ownCallsInto } from './own-calls-into.js';

const VOCABULARY = starterVocabulary();
const AREA = DEFAULT_LEFT_AREAS.get('rushes') ?? ({ name: '', zones: [], depths: [] } satisfies LeftArea);
const ZONE_UNSEEN: PlaySketch = {
  ...{ down: 3, distance: 8, yardsToGoal: 50, snapResult: 'complete', yardsGained: 9 },
  ...{ targetDepth: 'short', concept: 'mesh' },
};
const THROWN: PlaySketch = { ...ZONE_UNSEEN, targetZone: 'middle' };
const FLAT: PlaySketch = { ...THROWN, targetZone: 'flat' };

function menuCall(name: string, concept: string | null, side: MenuCall['side'] = 'offense'): MenuCall {
  return {
    ...{ id: name, side, name, rehearsed: true, byCheck: false, formationId: null },
    conceptId: concept === null ? null : VOCABULARY.idOfCode(`concept.${concept}`),
    ...{ frontId: null, coverageId: null, pressureId: null },
  };
}

const MENU = [
  menuCall('Lucky', 'slants'),
  menuCall('Sure', 'mesh'),
  menuCall('Elsewhere', 'four-verticals'),
  menuCall('Open', null),
  menuCall('Theirs', 'mesh', 'defense'),
];

describe('our own calls into an area', () => {
  const found = ownCallsInto(
    classifyPlays(
      chartOf([
        ...Array.from({ length: 8 }, () => THROWN),
        { ...THROWN, yardsGained: 1 },
        FLAT,
        ZONE_UNSEEN,
        { ...THROWN, concept: 'slants' },
        { ...FLAT, concept: 'four-verticals' },
      ]),
      VOCABULARY,
      DEFAULT_FOOTBALL_SETTINGS,
    ),
    VOCABULARY,
    AREA,
    MENU,
  );

  it('are those whose concept was thrown there, the surest first; one throw does not lead', () => {
    expect(found.map(({ call }) => call.name)).toEqual(['Sure', 'Lucky']);
  });

  it('are counted over throws whose zone and depth are known, with what came of them', () => {
    expect(found[0]).toMatchObject({ hits: 9, known: 10, trials: 9, successes: 8 });
    expect(found[0]?.evidence.places()).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });
});
