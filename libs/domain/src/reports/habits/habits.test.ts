import type { MenuCall } from '../../answers/options.js';
import { starterVocabulary } from '../../charting/vocabulary.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { times, type ChartedRow } from '../../tendencies/charted-rows.js';
import { reportHabits } from './habits.js';
import { call, EVEN_GAME, habitsInput, JET_GAME, SNAP } from './habits-sample.js';
import type { HabitTopic, HabitTopicName, ReportHabits } from './habits-shape.js';

const six = <Item>(item: Item): Item[] => Array.from({ length: 6 }, () => item);

function topicOf(habits: ReportHabits, topic: HabitTopicName, side: HabitTopic['side'] = 'offense'): HabitTopic {
  const topics = [...habits.givesAway, ...habits.sequences, ...habits.changed];
  const found = topics.find((one) => one.topic === topic && one.side === side);
  if (found === undefined) throw new Error(`no topic ${topic} of the ${side}`);
  return found;
}

describe('the habits of a report', () => {
  // Six games of ten snaps after a jet motion (nine runs) and ten without (one run): 54 of 60 against 6 of 60.
  const habits = reportHabits(habitsInput(six(JET_GAME), [], six(EVEN_GAME)), 7);

  it('name a planted tell with its counts and its plays', () => {
    const { claims } = topicOf(habits, 'tells');
    const claim = claims.find(({ id }) => id.includes('/called/run') && id.includes('/motion/'));
    expect(claims.length).toBeLessThanOrEqual(6);
    expect(claims[0]?.status).toBe('established');
    const jet = claims.find(({ words }) => words.startsWith('motion jet: run '));
    expect(jet?.words).toContain('motion jet: run 54 of 60 with it, 6 of 60 without; seen in 6 games');
    expect(jet).toMatchObject({ count: 54, known: 60, games: 6 });
    expect(jet?.plays).toHaveLength(54);
    expect(jet?.plays[0]).toEqual({ chartId: 'chart-0', playNumber: 1 });
    expect(claim).toBeDefined();
  });

  // Wilson at 90 % of 54 in 60, z = 1.645: centre (54 + 1.353) / 62.706 = 0.883, half-width 1.645 / 62.706 x
  // sqrt(54 x 6 / 60 + 0.676) = 0.065, so 82 to 95 %; the field runs on 60 of 120 after a jet motion.
  it('set a look against what others do from the same look', () => {
    const [look] = topicOf(habits, 'looks').claims;
    expect(['motion jet: run', 'motion none: pass']).toContain(look?.words.slice(0, look.words.indexOf(' 54')));
    expect(look?.words).toContain('54 of 60, 82-95 %, field 50 % with the same; 6 of 60 from other looks');
    expect(look).toMatchObject({ fieldShare: 0.5, fieldKnown: 120, status: 'established' });
  });

  it('name the nearest looks as not proven where none of so few stands', () => {
    const game = [
      ...times(4, call('run', 'jet')),
      ...times(1, call('pass', 'jet')),
      ...times(2, call('run', 'none')),
      ...times(3, call('pass', 'none')),
    ];
    const { note, claims, silence } = topicOf(
      reportHabits(habitsInput([game, game, game], [], six(EVEN_GAME)), 7),
      'looks',
    );
    expect(note).toMatch(/^none of \d+ pairs of look and call seen often enough is shown to be unlike the field's$/);
    expect(silence).toBeUndefined();
    const [first] = claims;
    expect(first?.words).toBe(
      'motion jet: run 12 of 15, 59-92 %, field 50 % with the same; 6 of 15 from other looks; not proven',
    );
    expect(claims.map(({ status }) => status)).toEqual(claims.map(() => 'unproven'));
    // One line a look.
    expect(new Set(claims.map(({ words }) => words.split(':')[0])).size).toBe(claims.length);
  });

  it('survive JSON unchanged and are the same whenever they are made again', () => {
    expect(JSON.parse(JSON.stringify(habits))).toEqual(habits);
    expect(reportHabits(habitsInput(six(JET_GAME), [], six(EVEN_GAME)), 7)).toEqual(habits);
  });

  it('name the counts of each claim in its words, and cite as many plays', () => {
    for (const { claims } of [...habits.givesAway, ...habits.sequences, ...habits.changed]) {
      expect(claims.length).toBeLessThanOrEqual(6);
      for (const { words, count, known, plays } of claims) {
        expect(words).toContain(`${count} of ${known}`);
        expect(plays).toHaveLength(count);
      }
    }
  });

  it('give no id twice', () => {
    const ids = [...habits.givesAway, ...habits.sequences, ...habits.changed].flatMap(({ claims }) =>
      claims.map(({ id }) => id),
    );
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('have no topics for a side without a snap', () => {
    expect(habits.givesAway.filter(({ side }) => side === 'defense')).toEqual([]);
    expect(reportHabits(habitsInput([], []), 7)).toEqual({
      givesAway: [],
      sequences: [],
      changed: [],
      events: [],
      overEvents: [],
    });
  });

  it('name our own calls that hit what the defender controlled by hand leaves', () => {
    const thrown: ChartedRow = {
      ...{ ...SNAP, down: 3, distance: 8, snapResult: 'snapResult.complete', yardsGained: 9, concept: 'concept.mesh' },
      ...{ manualDefenderAction: 'manualDefenderAction.rushes', targetDepth: 'targetDepth.short' },
      targetZone: 'targetZone.middle',
    };
    const mesh: MenuCall = {
      ...{ id: 'one', side: 'offense', name: 'Broom Closet', rehearsed: false, byCheck: false, formationId: null },
      conceptId: starterVocabulary().idOfCode('concept.mesh'),
      ...{ frontId: null, coverageId: null, pressureId: null },
    };
    const found = reportHabits(habitsInput([], [times(6, thrown)], [], [], [mesh]), 7);
    const opening = topicOf(found, 'manualDefender', 'defense').claims.find(({ id }) => id.includes('opening'));
    expect(opening?.words).toMatch(
      /^rushes leaves the short middle: .*; of ours Broom Closet \(mesh\): thrown there 6 of 6 by anybody, succeeded 6 of 6; not rehearsed$/,
    );
  });

  it('say one honest line where nothing is known', () => {
    const silent = reportHabits(habitsInput([times(12, SNAP)], [times(12, SNAP)]), 7);
    for (const { note, claims } of [...silent.givesAway, ...silent.sequences, ...silent.changed]) {
      expect(claims).toEqual([]);
      expect(note.length).toBeGreaterThan(10);
    }
    expect(topicOf(silent, 'manualDefender', 'defense').note).toBe('not seen on any of 12 snaps of this film');
    expect(topicOf(silent, 'disguise', 'defense').note).toBe(
      'shell and coverage were not both seen on any of 12 snaps',
    );
  });
});

describe('leads', () => {
  // Four games: after a jet motion two runs and a pass, without one three runs and three passes.
  const game = [
    ...times(2, call('run', 'jet')),
    ...times(1, call('pass', 'jet')),
    ...times(3, call('run', 'none')),
    ...times(3, call('pass', 'none')),
  ];
  const { claims } = topicOf(reportHabits(habitsInput([game, game, game, game]), 7), 'leads');

  it('are at most five, say that they are not proven and what would settle them', () => {
    expect(claims.length).toBeGreaterThan(0);
    expect(claims.length).toBeLessThanOrEqual(5);
    for (const { status, words } of claims) {
      expect(status).toBe('unproven');
      expect(words).toMatch(/; not proven, about \d+ more snaps? would settle it$/);
    }
    expect(claims[0]?.words).toMatch(/(run 8 of 12|pass only 4 of 12) with it, 12 of 24 without; seen in 4 games/);
  });

  it('are not what is shown to be unlike the field from the same look', () => {
    // Runs after jet motions, nearly all of them on first down: too few of both kinds in one situation for a tell.
    const few = [
      ...times(3, call('run', 'jet')),
      ...times(1, call('run', 'none')),
      ...times(1, call('pass', 'none')),
      ...times(4, { ...call('pass', 'none'), down: 3, distance: 8 }),
    ];
    const habits = reportHabits(habitsInput([few, few, few, few], [], six(EVEN_GAME)), 7);
    const shown = topicOf(habits, 'looks').claims.filter(({ status }) => status === 'established');
    expect(topicOf(habits, 'tells').claims).toEqual([]);
    expect(shown.map(({ label }) => label)).toContain('run with motion jet');
    const leads = topicOf(habits, 'leads').claims.map(({ label }) => label);
    expect(leads.filter((lead) => shown.some(({ label }) => label === lead))).toEqual([]);
  });
});

describe('what the defense shows', () => {
  const lie: ChartedRow = { ...SNAP, shell: 'shell.two-high', coverage: 'coverage.cover-3' };
  const truth: ChartedRow = { ...SNAP, shell: 'shell.two-high', coverage: 'coverage.cover-4' };

  // Two games of six lies; the field lies on 3 of 33 in each of its two games.
  it('says how often the shell lies, and with what', () => {
    const field = [...times(3, lie), ...times(30, truth)];
    const habits = reportHabits(habitsInput([], [times(6, lie), times(6, lie)], [field, field]), 7);
    const words = topicOf(habits, 'disguise', 'defense').claims.map((claim) => claim.words);
    // Wilson at 90 % of 12 in 12: lower bound 12 / 14.706 = 0.816. The field 6 of 66.
    expect(words[0]).toBe('the shell lied 12 of 12, 82-100 %, field 9 %');
    expect(words[1]).toBe('two high shown, cover 3 played: 12 of 12, disguised');
  });
});

describe('what the player decides by the clock', () => {
  // Ten seconds of a running clock between the snaps of one drive where the field takes 20, 25 and 30.
  const drive = (seconds: number, row: ChartedRow, snaps: number): ChartedRow[] =>
    Array.from({ length: snaps }, (_, place) => ({
      ...SNAP,
      ...{ quarter: 4, drive: 1, clockSeconds: 115 - seconds * place, clockRunning: 'yes', scoreDifference: -4 },
      ...{ offenseTimeouts: place < 3 ? 3 : 2, tempo: 'tempo.huddle' },
      ...row,
    }));
  const own = drive(10, { called: 'pass' }, 8);
  const field = [20, 25, 30].flatMap((seconds, at) =>
    drive(seconds, { called: 'run', drive: at + 1, offenseTimeouts: 3 }, 4),
  );
  const habits = reportHabits(
    habitsInput(
      six(own),
      [],
      Array.from({ length: 10 }, () => field),
    ),
    7,
  );

  // Six times from snap to snap in each of six games, the one over the timeout left out, all below the field's median of
  // 25 (of 3 x 3 x 10 times). Wilson at 90 % of 36 in 36: lower bound 36 / 38.706 = 0.930; the field took 20 in a third.
  it('the pace is told from the clock, against what the field takes', () => {
    const { note, claims } = topicOf(habits, 'clock');
    expect(note).toBe(
      'of 48 snaps the tempo is charted on 48; time from snap to snap, by a clock known to run, on 36; ' +
        'the field usually takes 25 seconds (90 snaps)',
    );
    const sooner = claims.find(
      ({ label }) => label === 'took less clock from snap to snap than the field usually does',
    );
    expect(sooner).toMatchObject({ count: 36, known: 36, games: 6, status: 'established', fieldKnown: 90 });
    expect(sooner?.words).toBe(
      'took less clock from snap to snap than the field usually does: 36 of 36, 93-100 %, field 33 %',
    );
  });

  it('runs never called behind late stand against a field that runs there', () => {
    const run = topicOf(habits, 'clock').claims.find(({ label }) => label === 'called a run, two-minute trailing');
    expect(run).toMatchObject({ count: 0, known: 48, status: 'established', fieldShare: 1 });
  });

  it('timeouts are told with when they were used and what was left lying', () => {
    const { note, claims } = topicOf(habits, 'timeouts');
    expect(note).toBe('timeouts known before and at 42 plays; not charted in the duel');
    const words = claims.map((claim) => claim.words);
    expect(words[0]).toBe('2 or 3 timeouts left at the last charted play of a half: 6 of 6 halves');
    // The field used none of 119 places: 6 of 42 stand.
    expect(claims.find(({ label }) => label === 'used a timeout before the snap')).toMatchObject({
      count: 6,
      known: 42,
    });
    expect(claims.find(({ label }) => label === 'used a timeout before the snap, second half')).toMatchObject({
      count: 6,
      known: 42,
      status: 'established',
    });
  });

  it('say what was not charted instead of never', () => {
    const silent = reportHabits(habitsInput([times(12, SNAP)]), 7);
    expect(topicOf(silent, 'timeouts')).toMatchObject({ note: 'not charted on any of 12 snaps', claims: [] });
    expect(topicOf(silent, 'clock')).toMatchObject({
      note: 'of 12 snaps the tempo is charted on 0; the time from snap to snap is not told, since no other player has a charted clock',
      claims: [],
    });
  });
});

describe('the duel before the snap', () => {
  const SHIFT = 'preSnapAdjustment.line-shifted';
  const FLIP = 'preSnapAdjustment.play-mirrored';
  const duel = (...moves: string[]): ChartedRow => ({ ...call('run'), preSnapAdjustments: moves });
  // A game: after the line shifted, three flips and one snap; three snaps without a move. The field flips one time in four.
  const own = [...times(3, duel(SHIFT, FLIP)), duel(SHIFT), ...times(3, duel())];
  const field = [...times(3, duel(SHIFT, FLIP)), ...times(9, duel(SHIFT)), ...times(3, duel())];
  const { note, claims } = topicOf(reportHabits(habitsInput(six(own), [], six(field)), 7), 'duel');

  it('is told in order, with who moved, share, field and plays', () => {
    expect(note).toBe('moves in their order charted on 42 of 42 snaps, 18 of them without a move');
    // Wilson at 90 % of 18 in 24: centre (18 + 1.353) / 26.706 = 0.725, half-width 0.140, so 58 to 86 %; the field 18 of 72.
    expect(claims.map(({ words }) => words)).toEqual([
      'line shifted by the other side, then play mirrored 18 of 24, 58-86 %, field 25 % that came so far; snapped there 18 of 18',
    ]);
    expect(claims[0]).toMatchObject({ count: 18, known: 24, games: 6, status: 'established' });
    expect(claims[0]?.plays).toHaveLength(18);
  });

  it('leaves out paths that came too seldom', () => {
    const seldom = topicOf(reportHabits(habitsInput([own.slice(0, 5)]), 7), 'duel');
    expect(seldom.claims).toEqual([]);
    expect(seldom.note).toContain('no path comes often enough to be told');
  });
});

describe('each call after the one before', () => {
  const drive = (called: (place: number) => 'run' | 'pass'): ChartedRow[] =>
    Array.from({ length: 12 }, (_, place) => ({ ...call(called(place)), quarter: 1, drive: 1 }));

  // Eleven pairs a game, none of them the same again. Wilson at 90 % of 0 in 66: upper bound 2.706 / 68.706 = 0.039.
  it('is told with its pairs and the test where it depends on it', () => {
    const taking = six(drive((place) => (place % 2 === 0 ? 'run' : 'pass')));
    const { claims } = topicOf(reportHabits(habitsInput(taking), 7), 'order');
    expect(claims[0]).toMatchObject({ count: 0, known: 66, status: 'established', plays: [] });
    expect(claims[0]?.words).toBe(
      'run or pass called: same as on the snap before 0 of 66, 0-4 %; it depends on the snap before (p below 0.001)',
    );
  });

  it('is not spoken of where nothing is found', () => {
    const random = seededRandom(3);
    const free = six(0).map(() => drive(() => (random() < 0.5 ? 'run' : 'pass')));
    expect(reportHabits(habitsInput(free), 7).sequences.map(({ topic }) => topic)).not.toContain('order');
  });
});

describe('what changed', () => {
  // Eight games of ten snaps: the four earlier ones run only, the four recent ones pass only.
  const games = [0, 1, 2, 3, 4, 5, 6, 7].map((game) => times(10, call(game < 4 ? 'run' : 'pass')));
  const even = [...times(25, call('run')), ...times(25, call('pass'))];

  it('holds recent games against earlier ones', () => {
    const { claims, note } = topicOf(reportHabits(habitsInput(games), 7), 'drift');
    expect(note).toContain('run or pass called: the mix moved');
    const words = claims.map((claim) => claim.words.slice(0, claim.words.indexOf(';')));
    // Wilson at 90 % of 40 in 40: lower bound 40 / 42.706 = 0.937.
    expect(words.sort()).toEqual([
      'pass 0 of 40 (0-6 %) before and 40 of 40 (94-100 %) since',
      'run 40 of 40 (94-100 %) before and 0 of 40 (0-6 %) since',
    ]);
    expect(claims.map(({ status }) => status)).toEqual(['established', 'established']);
  });

  // Of three games one is earlier and two are recent: three orders, so chance does as much in one of three.
  it('says where so few games can prove nothing', () => {
    const { note } = topicOf(reportHabits(habitsInput(games.slice(3, 6)), 7), 'drift');
    expect(note).toContain('chance alone does as much in 3 orders once, so nothing can be proven');
  });

  it('tells the player from the rules', () => {
    const versions = games.map((_, game) => ({ rulesVersion: game < 4 ? '3.0' : '3.1' }));
    const input = habitsInput(games, [], [even, even, even, even], versions);
    const { claims } = topicOf(reportHabits(input, 7), 'rulesVersion');
    expect(claims.map(({ words }) => words.split('; ').at(-1))).toEqual(['the player changed', 'the player changed']);
    expect(topicOf(reportHabits(habitsInput(games), 7), 'rulesVersion').note).toBe(
      'all games under rules 3.1: no change of rules to look across',
    );
  });

  it('follows what is called most from event to event', () => {
    const run: ChartedRow = { ...SNAP, callFamily: 'callFamily.run' };
    const screen: ChartedRow = { ...SNAP, callFamily: 'callFamily.screen' };
    const events = [{ eventId: 'spring' }, { eventId: 'spring' }, { eventId: 'summer' }];
    const mixed = [...times(3, run), ...times(2, screen)];
    const habits = reportHabits(habitsInput([mixed, mixed, times(4, run)], [], [], events), 7);
    expect(habits.events.map(({ eventId, games: of }) => [eventId, of])).toEqual([
      ['spring', 2],
      ['summer', 1],
    ]);
    expect(
      habits.overEvents.map(({ label, points }) => [label, points.map(({ count, known }) => [count, known])]),
    ).toEqual([
      [
        'run',
        [
          [6, 10],
          [4, 4],
        ],
      ],
      [
        'screen',
        [
          [4, 10],
          [0, 4],
        ],
      ],
    ]);
  });
});
