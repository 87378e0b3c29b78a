import { aClan, type TestClan } from '../support/factories.js';
import { gamesOf, snaps } from '../support/invented-games.js';
import { TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords, playerCalled } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

type Cells = Readonly<Record<string, unknown>>;

/** What the parts of an answer have that a test looks into; the rest it compares whole. */
interface Answered {
  readonly words: string;
  readonly plays: readonly Cells[];
  readonly recent: { readonly plays: readonly Cells[] };
  readonly by: readonly Cells[];
  readonly shares: readonly Answered[];
  readonly values: readonly Answered[];
}

let api: TestApi;
let clan: TestClan;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
});

const load = (games: readonly Cells[]): Promise<void> => loadRecords(api, clan, [...TWO_PLAYERS, ...games]);

async function ask(question: string, query = '') {
  const id = await playerCalled(api, clan, 'Mossback');
  return api.as(clan).get(`/v1/players/${id}/${question}${query}`);
}

const RUN = { callFamily: 'run', snapResult: 'rushed' };
const PASS = { callFamily: 'dropback pass', snapResult: 'complete' };

/** The one of a list with these fields. */
function having(list: readonly Answered[], fields: Cells): Answered {
  const found = list.find((one) => {
    const members = new Map(Object.entries(one));
    return Object.entries(fields).every(([name, value]) => members.get(name) === value);
  });
  if (found === undefined) throw new Error(`none of ${list.length} has ${JSON.stringify(fields)}`);
  return found;
}

/** Places of the plays cited, game by game. */
const numbersOf = (plays: readonly Cells[]): unknown[] => plays.map(({ playNumber }) => playNumber);

describe('sequences', () => {
  const scripted = snaps(12, (place) => (place < 3 ? { ...PASS, callFamily: 'screen' } : RUN));

  it('tell the openers from what came later, play by play', async () => {
    await load(gamesOf([scripted, scripted, scripted, scripted]));
    const { body } = await ask('sequences', '?openers=3');
    const [game] = body.openers;
    expect(game.games).toHaveLength(4);
    expect(game.games[0].snaps[2]).toMatchObject({ playNumber: 3, second: 70, value: { label: 'screen' } });
    expect(game.values).toHaveLength(1);
    expect(game.values[0]).toMatchObject({
      label: 'screen',
      count: 12,
      known: 12,
      later: { count: 0, known: 36 },
      words: 'first 3 snaps of a game: screen 12 of 12, 82-100 %; later 0 of 36',
    });
    expect(numbersOf(game.values[0].plays)).toEqual([1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3]);
  });

  it('say how often the same comes again, and what comes after a sack', async () => {
    const sacked = snaps(12, (place) =>
      place % 4 === 0 ? { ...PASS, snapResult: 'sacked', yardsGained: -5 } : place % 4 === 1 ? RUN : PASS,
    );
    await load(gamesOf([sacked, sacked]));
    const { body } = await ask('sequences', '?dimension=called');
    expect(body).toMatchObject({ dimension: 'called', snaps: 24, known: 24 });
    const [afterSack] = body.reactions;
    expect(afterSack).toMatchObject({ event: 'sack', snaps: 6, known: 6 });
    expect(afterSack.values[0]).toMatchObject({ label: 'run', count: 6, otherwise: { count: 0, known: 18 } });
    expect(afterSack.values[0]?.words).toMatch(/^snap after a sack: run 6 of 6; otherwise 0 of 18/);
    expect(numbersOf(afterSack.values[0].plays)).toEqual([2, 6, 10, 2, 6, 10]);
    expect(body.repeats).toMatchObject([{ after: 'success' }, { after: 'failure' }]);
    expect(body.order.situations[0]).toMatchObject({ situation: '2nd and 7-10', known: 22 });
  });

  it.each([
    ['cue=motion:jet', 'cue'],
    ['dimension=coverage', 'dimension'],
    ['dimension=colour', 'dimension'],
    ['openers=0', 'openers'],
  ])('refuse ?%s', async (query, field) => {
    await load([]);
    expect(await ask('sequences', `?${query}`)).toMatchObject({
      status: 400,
      body: { errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
  });
});

describe('adjustments', () => {
  it('give the duel as a tree, and how what is shown is answered', async () => {
    const duel = snaps(12, (place) => ({
      ...RUN,
      ...(place % 3 === 0
        ? { preSnapAdjustments: ['line shifted', 'play mirrored'] }
        : place % 3 === 1
          ? { preSnapAdjustments: [] }
          : {}),
    }));
    await load(gamesOf([duel, duel]));
    const { body } = await ask('adjustments');
    expect(body).toMatchObject({ snaps: 24, known: 16, level: 0.05 });
    expect(body.restsOn).toContain('duel before the snap known on 16 of 24');
    expect(body.tree).toMatchObject({ step: null, count: 16, known: 24, snapped: 8 });
    expect(body.tree.children[0]).toMatchObject({
      step: { by: 'defense', label: 'line shifted' },
      count: 8,
      known: 16,
      snapped: 0,
      children: [{ step: { by: 'offense', label: 'play mirrored' }, count: 8, known: 8, snapped: 8 }],
    });
    const [mirrored] = body.answers;
    expect(mirrored).toMatchObject({
      answer: { label: 'play mirrored' },
      count: 8,
      known: 8,
      anyway: { count: 0, known: 8 },
      established: true,
    });
    expect(mirrored.words).toMatch(/^after line shifted: play mirrored 8 of 8; without it 0 of 8; stands among all/);
    expect(numbersOf(mirrored.plays)).toEqual([1, 4, 7, 10, 1, 4, 7, 10]);
    expect((await ask('adjustments', '?depth=1')).body.tree.children[0].children).toEqual([]);
  });
});

describe('point of attack', () => {
  it('sets where the ball was meant to go against where it went', async () => {
    const attack = snaps(12, (place) => ({
      ...RUN,
      designedSide: 'left',
      actualSide: place % 4 === 0 ? 'right' : 'left',
      ...(place % 2 === 0 ? { offDesign: place % 4 === 0 ? 'forced by a set edge' : 'no' } : {}),
      yardsGained: place % 4 === 0 ? 0 : 9,
    }));
    await load(gamesOf([attack, attack]));
    const { body } = await ask('point-of-attack');
    expect(body.all).toMatchObject({
      snaps: 24,
      forced: { count: 6, known: 12 },
      whenForced: { trials: 6, successes: 0 },
      whenNot: { trials: 6, successes: 6 },
    });
    expect(body.all.forced.words).toMatch(
      /^all snaps: forced off the design 6 of 12, .*; succeeded forced 0 of 6, not forced 6 of 6; known on 12 of 24$/,
    );
    expect(numbersOf(body.all.forced.plays)).toEqual([1, 5, 9, 1, 5, 9]);
    expect(body.sides).toMatchObject([
      { meant: { label: 'left' }, went: { label: 'left' }, count: 18, known: 24 },
      { words: 'meant for left, went right: 6 of 24', count: 6, known: 24 },
    ]);
  });
});

describe('drift', () => {
  const mostly = (main: Cells, other: Cells) => snaps(10, (place) => (place === 4 ? other : main));
  const before = mostly(RUN, PASS);
  const since = mostly(PASS, RUN);
  const ten = [before, before, before, before, before, since, since, since, since, since];

  it('says which shares moved between two stretches of games, and from which seed', async () => {
    await load(gamesOf(ten));
    const { body } = await ask('drift');
    expect(body).toMatchObject({ unit: 'game', permutations: 999, seed: 1, versions: null });
    expect(body.earlier).toEqual({ label: 'older half of the games', games: 5, snaps: 50 });
    const called = having(body.dimensions, { dimension: 'called' });
    expect(called).toMatchObject({ drifted: true, earlierGames: 5, recentGames: 5 });
    const run = having(called.shares, { label: 'run' });
    expect(run).toMatchObject({ moved: true, earlier: { count: 45, known: 50 }, recent: { count: 5, known: 50 } });
    expect(run.words).toMatch(
      /^run 45 of 50 \(.* %\) before and 5 of 50 \(.* %\) since; moved \(p 0.0\d+, one of \d+ shares of \d+ mixe?s? looked at\)$/,
    );
    expect(numbersOf(run.recent.plays)).toEqual([5, 5, 5, 5, 5]);
    expect((await ask('drift')).body).toEqual(body);
  });

  it('parts games by a day, by halves, and never two ways at once', async () => {
    await load(gamesOf(ten));
    const parts = async (query: string) => {
      const { body } = await ask('drift', query);
      return [body.earlier.games, body.recent.games] as unknown[];
    };
    expect(await parts('?before=2026-03-03')).toEqual([2, 8]);
    expect(await parts('?after=2026-03-09')).toEqual([8, 2]);
    expect(await parts('?before=2026-03-03&after=2026-03-10')).toEqual([2, 1]);
    expect(await parts('?split=half')).toEqual([10, 0]);
    expect((await ask('drift', '?split=half')).body.restsOn).toContain(
      'nothing to compare: no snap in "second halves"',
    );
    for (const query of ['?split=half&before=2026-03-03', '?split=moon', '?before=soon']) {
      expect(await ask('drift', query)).toMatchObject({ status: 400, body: { code: 'request.invalid' } });
    }
  });

  it('holds elimination games against group games, and scrimmages against neither', async () => {
    const kinds = [
      'group',
      'group',
      'group',
      'group',
      'group',
      'elimination',
      'elimination',
      'elimination',
      'scrimmage',
    ];
    await load(gamesOf(ten, (game) => ({ importance: kinds[game] ?? 'elimination' })));
    const { body } = await ask('drift', '?split=importance');
    expect(body).toMatchObject({
      earlier: { label: 'group games', games: 5, snaps: 50 },
      recent: { label: 'elimination games', games: 4, snaps: 40 },
    });
    const run = having(having(body.dimensions, { dimension: 'called' }).shares, { label: 'run' });
    expect(run.words).toMatch(/^run 45 of 50 \(.* %\) in group games and 4 of 40 \(.* %\) in elimination games; moved/);
  });

  it('tells a change of the player from one of the rules', async () => {
    const heron = snaps(10, (place) => ({ offense: 'Brass Heron', ...(place % 2 === 0 ? RUN : PASS) }));
    const games = [before, before, before, before, since, since, since, since].map((own) => [
      ...own,
      ...heron.map((snap) => ({ ...snap, drive: 2 })),
    ]);
    await load(gamesOf(games, (game) => ({ rulesVersion: game < 4 ? '1' : '2' })));
    const { body } = await ask('drift', '?split=rules');
    expect(body).toMatchObject({ earlier: { label: 'rules 1', games: 4 }, recent: { label: 'rules 2', games: 4 } });
    const run = having(body.versions, { dimension: 'called', label: 'run' });
    expect(run).toMatchObject({
      earlier: { count: 36, known: 40, field: { count: 20, known: 40 } },
      recent: { count: 4, known: 40, field: { count: 20, known: 40 } },
      verdict: 'the player changed',
    });
    expect(run.words).toMatch(/; field 20 of 40 before and 20 of 40 since; the player changed$/);
  });
});

describe('decisions', () => {
  it('count fourth downs by distance, with the kicks that were decisions against', async () => {
    const fourth = [
      { ...RUN, down: 4, distance: 1, yardsToGoal: 40 },
      { playType: 'punt', down: 4, distance: 8, yardsToGoal: 60, snapResult: undefined, yardsGained: undefined },
      { playType: 'punt', down: 4, distance: 3, yardsToGoal: 60, snapResult: undefined, yardsGained: undefined },
      { playType: 'field goal', down: 4, distance: 3, yardsToGoal: 20, snapResult: undefined, yardsGained: undefined },
    ];
    await load(gamesOf([snaps(4, (place) => fourth[place] ?? {}), snaps(4, (place) => fourth[place] ?? {})]));
    const { body } = await ask('decisions');
    const fourthDown = having(body.decisions, { decision: 'fourthDown' });
    expect(fourthDown).toMatchObject({ count: 2, known: 8, words: 'went for it on fourth down: 2 of 8' });
    expect(numbersOf(fourthDown.plays)).toEqual([1, 1]);
    expect(fourthDown.by[0]).toMatchObject({
      partition: 'distance',
      parts: [
        { part: '1', count: 2, known: 2 },
        { part: '2-3', count: 0, known: 4, words: 'went for it on fourth down, distance 2-3: 0 of 4' },
        { part: '8 or more', count: 0, known: 2 },
      ],
    });
    const goal = having(body.decisions, { decision: 'kicksAtGoal' });
    expect(goal).toMatchObject({ count: 2, known: 6 });
    expect(await ask('decisions', '?side=defense')).toMatchObject({ status: 400 });
  });
});

describe('the defense', () => {
  const defended = (of: (place: number) => Cells) =>
    snaps(12, (place) => ({ ...PASS, offense: 'Brass Heron', ...of(place) }));

  it('is told where its shell lies', async () => {
    const looks = defended((place) => ({
      ...(place % 2 === 0 ? { shell: 'two high' } : {}),
      coverage: place % 4 === 0 ? 'cover 3' : 'cover 2',
    }));
    await load(gamesOf([looks, looks]));
    const { body } = await ask('disguise');
    expect(body).toMatchObject({ side: 'defense', snaps: 24, bothKnown: 12, disguised: { count: 6, known: 12 } });
    expect(body.disguised.words).toMatch(/^the shell lied 6 of 12, \d+-\d+ %; known on 12 of 24$/);
    expect(body.pairs[0]).toMatchObject({ coverage: { label: 'cover 3' }, count: 6, disguised: true });
    expect(numbersOf(body.pairs[0].plays)).toEqual([1, 5, 9, 1, 5, 9]);
    expect((await ask('disguise', '?voice=self')).body.disguised.words).toMatch(
      /^an opponent would learn that you lie/,
    );
  });

  it('is told where its controlled defender is, and what that leaves', async () => {
    const controlled = defended((place) => ({
      manualDefenderStart: 'middle linebacker',
      ...(place % 2 === 0 ? { manualDefenderAction: 'rushes', targetZone: 'middle', targetDepth: 'short' } : {}),
    }));
    await load(gamesOf([controlled]));
    const { body } = await ask('manual-defender');
    expect(body.restsOn).toContain('action of the controlled defender known on 6 of 12');
    expect(body.situations[0]).toMatchObject({ situation: 'all snaps', starts: [{ count: 12, known: 12 }] });
    expect(body.situations[0].actions[0]).toMatchObject({ label: 'rushes', count: 6, known: 6 });
    expect(body.together[0]).toMatchObject({ count: 6, known: 6 });
    expect(body.openings[0]).toMatchObject({ area: 'short middle', hits: { count: 6, known: 6 } });
    expect(body.openings[0].words).toMatch(/^rushes leaves the short middle: thrown there 6 of 6; succeeded there/);
  });
});

describe('a player with thirty half-filled plays', () => {
  const thirty = snaps(30, (place) => ({
    ...(place % 2 === 0 ? { formation: 'trips', designedSide: 'left', actualSide: 'left' } : {}),
    ...(place % 3 === 0 ? {} : place % 4 === 0 ? RUN : PASS),
    ...(place % 5 === 0 ? { offDesign: 'no', preSnapAdjustments: ['play mirrored'] } : {}),
  }));

  it.each([
    ['sequences', 'call family known on 20 of 30'],
    ['adjustments', 'duel before the snap known on 6 of 30'],
    ['point-of-attack', 'whether it was forced known on 6 of 30'],
    ['drift', 'nothing to compare'],
    ['decisions', 'so little that the counts say more than any share'],
  ])('is told by %s how little it rests on', async (question, rests) => {
    await load(gamesOf([thirty]));
    const { status, body } = await ask(question);
    expect(status).toBe(200);
    expect(body.restsOn).toContain('rests on 30 snaps of 1 game');
    expect(body.restsOn).toContain('one game only: what looks like a habit may be its plan');
    expect(body.restsOn).toContain(rests);
  });

  it('is told in counts what there is', async () => {
    await load(gamesOf([thirty]));
    expect((await ask('adjustments')).body.tree.children[0].words).toMatch(/^play mirrored 6 of 6 that came so far; /);
    expect((await ask('point-of-attack')).body.all.forced.words).toMatch(/^all snaps: forced off the design 0 of 6; /);
    const { body } = await ask('profile', '?voice=scout&situation=2nd and 7-10');
    const [{ dimensions }] = body.situations;
    expect(having(dimensions, { dimension: 'callFamily' }).values[0]?.words).toMatch(
      /^2nd and 7-10: dropback pass 15 of 20, \d+-\d+ %; known on 20 of 30$/,
    );
  });
});
