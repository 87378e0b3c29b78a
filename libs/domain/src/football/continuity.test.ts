import fc from 'fast-check';
import { WHOLE_FILM, type FilmScope } from '../charting/film-scope.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { continuityBreaks, type ContinuityBreak } from './continuity.js';
import { chartOf, type PlaySketch } from './testing/chart-of.js';
import { simulatedGame } from './testing/simulated-game.js';

const VOCABULARY = starterVocabulary();

function breaksIn(sketches: readonly PlaySketch[], scope: Partial<FilmScope> = {}): readonly ContinuityBreak[] {
  return continuityBreaks(chartOf(sketches), { ...WHOLE_FILM, ...scope }, VOCABULARY);
}

const someSeed = fc.nat({ max: 1_000_000 });

function aGame(seed: number): PlaySketch[] {
  return simulatedGame(seededRandom(seed));
}

describe('a game charted without a slip', () => {
  it('is simulated with everything that moves ball and chains', () => {
    const games = Array.from({ length: 200 }, (_, seed) => aGame(seed)).flat();
    const seen = new Set(games.flatMap(({ ledTo, snapResult, foul }) => [ledTo, snapResult, foul].flat()));
    expect([...seen]).toEqual(
      expect.arrayContaining([
        'touchdown-offense',
        'touchdown-defense-or-return',
        'safety-scored',
        'turnover-on-downs',
        'fumble-lost',
        'intercepted',
        'kick-good',
        'kick-missed',
        'kick-blocked',
        'muffed',
        'onside-recovered-by-the-kickers',
        'end-of-half',
        'false-start',
        'offside',
        'roughing',
        'intentional-grounding',
        'pass-interference-by-the-defense',
      ]),
    );
    expect(new Set(games.map(({ quarter }) => quarter))).toEqual(new Set([1, 2, 3, 4, 5]));
  });

  it('has no breaks', () => {
    fc.assert(
      fc.property(someSeed, (seed) => {
        expect(breaksIn(aGame(seed))).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it('has none where fields are missing, as long as a foul is noted as such', () => {
    fc.assert(
      fc.property(someSeed, fc.double({ min: 0, max: 1, noNaN: true }), (seed, share) => {
        const random = seededRandom(seed + 1);
        const kept = ['playType', 'offenseIsHome', 'foul', 'callFamily', 'fake'];
        const thinned = aGame(seed).map((play): PlaySketch =>
          Object.fromEntries(Object.entries(play).filter(([name]) => kept.includes(name) || random() > share)),
        );
        expect(breaksIn(thinned)).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it('has none where kickoffs, or kickoffs and tries, were left out of the chart', () => {
    fc.assert(
      fc.property(someSeed, fc.boolean(), (seed, leavesOutTries) => {
        const leftOut = ['kickoff', 'free kick', ...(leavesOutTries ? ['try kick', 'two-point try'] : [])];
        const charted = aGame(seed).filter((play) => !leftOut.includes(String(play.playType)));
        expect(breaksIn(charted)).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it.each<[string, Partial<FilmScope>, (play: PlaySketch) => boolean]>([
    ['one side', { offense: 'home' }, (play) => play.offenseIsHome === true],
    ['the other side', { offense: 'away' }, (play) => play.offenseIsHome === false],
    ['third downs', { downs: [3] }, (play) => play.down === 3],
    ['third and fourth downs', { downs: [3, 4] }, (play) => play.down === 3 || play.down === 4],
    ['two quarters apart', { quarters: [1, 4] }, (play) => play.quarter === 1 || play.quarter === 4],
    ['the second half', { quarters: [3, 4, 5] }, (play) => Number(play.quarter) >= 3],
    [
      'third downs of one side',
      { offense: 'home', downs: [3] },
      (play) => play.offenseIsHome === true && play.down === 3,
    ],
  ])('has none in a chart of %s, however it numbers its plays', (_what, scope, isInScope) => {
    fc.assert(
      fc.property(someSeed, (seed) => {
        const game = aGame(seed).map((play, place): PlaySketch => ({ ...play, order: place + 1 }));
        const charted = game.filter(isInScope);
        expect(breaksIn(charted, scope)).toEqual([]);
        expect(breaksIn(renumbered(charted), scope)).toEqual([]);
      }),
      { numRuns: 50 },
    );
  });
});

function renumbered(sketches: readonly PlaySketch[]): PlaySketch[] {
  return sketches.map((sketch, place) => ({ ...sketch, order: place + 1 }));
}

const CORRUPTIONS: readonly [string, (play: PlaySketch) => PlaySketch][] = [
  ['down', (play) => ({ ...play, down: (Number(play.down) % 4) + 1 })],
  ['distance', (play) => ({ ...play, distance: Number(play.distance) + 4 })],
  [
    'yardsToGoal',
    (play) => ({ ...play, yardsToGoal: Number(play.yardsToGoal) + (Number(play.yardsToGoal) > 50 ? -7 : 7) }),
  ],
  ['possession', (play) => ({ ...play, offenseIsHome: play.offenseIsHome !== true })],
  ['drive', (play) => ({ ...play, drive: Number(play.drive) + 2 })],
];

describe('one wrong field', () => {
  it.each(CORRUPTIONS)('is found when it is the %s', (field, corrupt) => {
    fc.assert(
      fc.property(someSeed, fc.nat(), (seed, pick) => {
        const game = aGame(seed);
        const places = game.flatMap((_, place) => (follows(game, place) ? [place] : []));
        const place = places[pick % places.length] ?? 0;
        const charted = game.map((play, at) => (at === place ? corrupt(play) : play));
        const found = breaksIn(charted).filter((found) => found.playNumber === place + 1);
        expect(found.map((found) => found.field)).toContain(field);
      }),
      { numRuns: 200 },
    );
  });

  it.each([{ offense: 'home' }, { quarters: [1, 2] }] as const)(
    'is found inside a narrower scope as well: %j',
    (scope) => {
      fc.assert(
        fc.property(someSeed, (seed) => {
          const game = renumbered(
            aGame(seed).filter((play) =>
              'offense' in scope ? play.offenseIsHome === true : Number(play.quarter) <= 2,
            ),
          );
          const place = game.findIndex((_, at) => follows(game, at));
          fc.pre(place > 0);
          const charted = game.map((play, at) => (at === place ? { ...play, yardsToGoal: 99 } : play));
          const found = breaksIn(charted, scope).filter((found) => found.playNumber === place + 1);
          expect(found.map((found) => found.field)).toEqual(['yardsToGoal']);
        }),
        { numRuns: 50 },
      );
    },
  );
});

/** Whether this play follows an ordinary one of the same drive, after which only one thing can come. */
function follows(game: readonly PlaySketch[], place: number): boolean {
  const previous = game[place - 1];
  const play = game[place];
  if (previous === undefined || play === undefined) return false;
  const isOrdinary = [previous, play].every((each) => each.playType === 'scrimmage' && each.foul === undefined);
  const isSameDrive = previous.drive === play.drive && previous.quarter === play.quarter && Number(play.quarter) < 5;
  const isSameSide = previous.offenseIsHome === play.offenseIsHome;
  const isInField = Number(play.yardsToGoal) > 20 && Number(play.yardsToGoal) < 80;
  return isOrdinary && isSameDrive && isSameSide && isInField && isClear(previous);
}

/** Within a yard of the line to gain either down may follow, so that a wrong one can pass for the other. */
function isClear(play: PlaySketch): boolean {
  return Math.abs(Number(play.yardsGained ?? 0) - Number(play.distance)) > 1 && Array.isArray(play.ledTo);
}

const FIRST: PlaySketch = {
  quarter: 1,
  drive: 3,
  down: 1,
  distance: 10,
  yardsToGoal: 60,
  snapResult: 'rushed',
  yardsGained: 4,
  ledTo: [],
};
const SECOND: PlaySketch = { ...FIRST, down: 2, distance: 6, yardsToGoal: 56 };

describe('a break', () => {
  it('says where it is, what was found, what was expected, and why', () => {
    expect(breaksIn([FIRST, { ...SECOND, down: 3 }])).toEqual([
      {
        playNumber: 2,
        orderInGame: 2,
        previousPlayNumber: 1,
        field: 'down',
        found: 3,
        expected: 2,
        message: 'the down is 3, but 2 follows from play 1',
      },
    ]);
  });

  it.each<[string, PlaySketch, PlaySketch, Partial<ContinuityBreak>[]]>([
    ['nothing, one yard off', FIRST, { ...SECOND, yardsToGoal: 55, distance: 7 }, []],
    [
      'a spot two yards off',
      FIRST,
      { ...SECOND, yardsToGoal: 54 },
      [{ field: 'yardsToGoal', found: 54, expected: 56 }],
    ],
    ['the distance', FIRST, { ...SECOND, distance: 8 }, [{ field: 'distance', found: 8, expected: 6 }]],
    [
      'the side',
      FIRST,
      { ...SECOND, offenseIsHome: false },
      [{ field: 'possession', found: 'away', expected: 'home' }],
    ],
    ['the drive', FIRST, { ...SECOND, drive: 4 }, [{ field: 'drive', found: 4, expected: 3 }]],
    [
      'a touchdown without a try',
      { ...FIRST, yardsGained: 60, ledTo: ['touchdown-offense'] },
      { ...FIRST, drive: 4 },
      [{ field: 'playType', found: 'scrimmage', expected: 'a try' }],
    ],
    [
      'fourth down missed and the ball kept',
      { ...FIRST, down: 4, yardsGained: 2 },
      { ...FIRST, yardsToGoal: 58, distance: 8, drive: 3 },
      [
        { field: 'possession', expected: 'away' },
        { field: 'distance', expected: 10 },
        { field: 'yardsToGoal', expected: 42 },
        { field: 'drive', expected: 4 },
      ],
    ],
    [
      'an interception and the ball kept',
      { ...FIRST, snapResult: 'intercepted', yardsGained: 0 },
      { ...FIRST, drive: 4 },
      [{ field: 'possession', found: 'home', expected: 'away' }],
    ],
    [
      'a punt that went farther than charted',
      { ...FIRST, playType: 'punt', down: 4, snapResult: 'fair-catch', kickLength: 40 },
      { ...FIRST, offenseIsHome: false, drive: 4, yardsToGoal: 90 },
      [{ field: 'yardsToGoal', found: 90, expected: 80 }],
    ],
    [
      'a foul that was not marked off',
      {
        ...FIRST,
        snapResult: 'no-play',
        foul: 'false-start',
        foulSide: 'offense',
        foulYards: 5,
        foulAnswer: 'accepted',
      },
      FIRST,
      [
        { field: 'distance', found: 10, expected: 15 },
        { field: 'yardsToGoal', found: 60, expected: 65 },
      ],
    ],
    [
      'offset fouls that cost a down',
      { ...FIRST, foul: 'holding-by-the-offense', foulAnswer: 'offset' },
      { ...FIRST, down: 2 },
      [{ field: 'down', found: 2, expected: 1 }],
    ],
    ['a half without a kickoff', { ...FIRST, quarter: 2 }, { ...FIRST, quarter: 3 }, [{ field: 'playType' }]],
  ])('is found for %s', (_what, previous, next, expected) => {
    // A try and a kickoff later on show that this chart does not leave them out.
    const rest: PlaySketch[] = [
      { playType: 'try kick', order: 50 },
      { playType: 'kickoff', order: 60 },
    ];
    const found = breaksIn([previous, next, ...rest]);
    expect(found).toHaveLength(expected.length);
    expected.forEach((part, place) => {
      expect(found[place]).toMatchObject(part);
    });
  });

  it('is never found across a gap in the order, two charts, or the end of the game', () => {
    expect(breaksIn([FIRST, { ...FIRST, down: 4, order: 3 }])).toEqual([]);
    expect(
      breaksIn([
        { ...FIRST, ledTo: ['conceded-or-disconnected'] },
        { ...FIRST, down: 4 },
      ]),
    ).toEqual([]);
  });

  it('is never found where nobody looked for fouls', () => {
    const fields = ['down', 'distance', 'yardsToGoal', 'yardsGained', 'snapResult'];
    expect(breaksIn([FIRST, { ...SECOND, down: 3 }], { fields })).toEqual([]);
    expect(breaksIn([FIRST, { ...SECOND, down: 3 }], { fields: [...fields, 'foul'] })).toHaveLength(1);
  });

  it('is found in the order of the game, whatever the order of the batch', () => {
    const wrong = { ...SECOND, down: 3, order: 2 };
    expect(breaksIn([wrong, { ...FIRST, order: 1 }])).toMatchObject([{ playNumber: 1, previousPlayNumber: 2 }]);
  });

  it('is never found for a first down by inches on a chart that does not list them', () => {
    const byInches: PlaySketch = {
      quarter: 1,
      drive: 3,
      down: 3,
      distance: 1,
      yardsToGoal: 60,
      snapResult: 'rushed',
      yardsGained: 0,
    };
    expect(breaksIn([byInches, FIRST])).toEqual([]);
    expect(breaksIn([{ ...byInches, snapResult: 'incomplete' }, FIRST])).not.toEqual([]);
  });

  it('accepts full foul yards written down where only half the way was marked off', () => {
    const foul = { foul: 'offside', foulSide: 'defense', foulYards: 5, foulAnswer: 'accepted', snapResult: 'no-play' };
    const goalToGo = { ...FIRST, distance: 4, yardsToGoal: 4 };
    expect(
      breaksIn([
        { ...goalToGo, ...foul },
        { ...goalToGo, distance: 2, yardsToGoal: 2 },
      ]),
    ).toEqual([]);
  });
});
