import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

type Cells = Readonly<Record<string, unknown>>;

let api: TestApi;
beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());

/** Registered, and charted by nobody. */
const UNCHARTED = aGameRecord({ reference: 'pond-2', importance: 'scrimmage', playedAt: '2026-02-01T12:00:00Z' });

interface Topic {
  readonly topic: string;
  readonly note: string;
  readonly claims: readonly unknown[];
  readonly silence?: { readonly reason: string; readonly toChart: readonly string[] };
}

/** A report on Mossback from these plays, in every form of it. */
async function reportOn(
  plays: readonly Cells[],
  others: readonly Cells[] = [],
): Promise<{
  readonly topics: readonly Topic[];
  readonly text: string;
  readonly markdown: string;
  readonly page: string;
  readonly chartNext: unknown;
}> {
  const clan: TestClan = await aClan(api.database.owner);
  await loadRecords(api, clan, [...TWO_PLAYERS, ...others, UNCHARTED, aGameRecord(), ...plays]);
  const events = await api.as(clan).get('/v1/events');
  const players = (await api.as(clan).get('/v1/players')).body.items as { id: string; handle: string }[];
  const made = await api
    .as(clan)
    .post('/v1/round-reports')
    .send({ eventId: events.body.items[0].id, playerId: players.find(({ handle }) => handle === 'Brass Heron')?.id });
  const path = made.headers['location'] ?? '';
  const as = async (type: string): Promise<string> => (await api.as(clan).get(path).set('Accept', type)).text;
  const { givesAway, sequences, changed } = made.body.habits as Record<string, Topic[]>;
  return {
    topics: [...(givesAway ?? []), ...(sequences ?? []), ...(changed ?? [])],
    text: await as('text/plain'),
    markdown: await as('text/markdown'),
    page: (await as('text/html')).replace(/\s+/g, ' '),
    chartNext: made.body.chartNext,
  };
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

/** From a heading to the next one, as text has them. */
function sectionOf(text: string, title: string): string {
  const [, after = ''] = text.split(`\n${title}\n${'-'.repeat(title.length)}\n`);
  return oneLine(after.split('\n\n')[0] ?? '');
}

const UNTOLD = 'What this film could not tell';

describe('a report on four plays', () => {
  let report: Awaited<ReturnType<typeof reportOn>>;
  beforeAll(async () => {
    report = await reportOn(
      Array.from({ length: 4 }, (_, at) =>
        aPlayRecord({
          ...{ order: at + 1, down: at + 1, distance: 10 - 3 * at, yardsToGoal: 60 - 3 * at, yardsGained: 3 },
          callFamily: at % 3 === 0 ? 'run' : 'dropback pass',
        }),
      ),
    );
  });

  it('has what is known, and the rest in one paragraph at the end', () => {
    const titles = [...report.text.matchAll(/\n(.+)\n-+\n/g)].map(([, title]) => title);
    expect(titles).toEqual([
      'Who and when',
      'Who is next',
      'Sequences and answers',
      'Offense: most used, all snaps',
      'Defense',
      UNTOLD,
      'What this rests on',
      'Before you use this',
    ]);
    expect(sectionOf(report.text, 'Offense: most used, all snaps')).toContain('- run (call family): 2 of 4');
    expect(sectionOf(report.text, 'Sequences and answers')).toBe(
      'Offense, fourth down, tries and kicks: decisions that the chart shows. - went for it on fourth down: 1 of 1',
    );
    expect(sectionOf(report.text, UNTOLD)).toBe(
      'Offense, 4 snaps of 1 game, so little that only counts are told. ' +
        'Never charted: concept; formation; backfield; motion; direction against strength; target depth; tempo; ' +
        'personnel; what answers what before the snap; the duel before the snap, in order; point of attack; ' +
        'when the clock and the score press; timeouts. ' +
        'Too little film for: tells; looks used otherwise than by the field; leads, not proven; openers; the same ' +
        'again; after a sack, a turnover, an explosive play. ' +
        'Without anything to compare with: recent games against earlier ones; second half against first; the rules ' +
        'or the player. ' +
        'Thin situations: 1st and 10, 1 snap; 2nd and 7-10, 1 snap; 3rd and 3-6, 1 snap; 4th and 1, 1 snap. ' +
        'Answers to their calls: the archive has too few plays to compare answers. ' +
        'How to mix our calls: too little is charted to mix them against. ' +
        'Film to watch: no play of the evidence has a second of the video. ' +
        'To change that, add to the charts there are: pre snap adjustments, off design, tempo, clock seconds, clock ' +
        'running, offense timeouts, defense timeouts.',
    );
  });

  it('says the same as Markdown and as a page', () => {
    const told = 'Offense, 4 snaps of 1 game, so little that only counts are told. Never charted: concept; formation;';
    expect(report.markdown).toContain(`## ${UNTOLD}\n\n${told}`);
    expect(report.page).toContain(`<h2>${UNTOLD}</h2> <p>${told}`);
    expect(report.page).toContain(`<a href="#not-known">${UNTOLD}</a>`);
    for (const form of [report.text, report.markdown, report.page]) {
      expect(form).not.toMatch(/none of 0|of 0 games|any of 1 |What gives it away|What changed|Film to watch, in/);
    }
  });

  it('tells a program of each topic that is silent, and why', () => {
    const silent = report.topics.filter(({ claims }) => claims.length === 0);
    expect(silent.length).toBeGreaterThan(10);
    for (const { silence, note } of silent) {
      expect(note.length).toBeGreaterThan(10);
      expect(['not charted', 'too little film', 'nothing to compare with']).toContain(silence?.reason);
    }
    expect(report.topics.find(({ topic }) => topic === 'duel')?.silence).toEqual({
      reason: 'not charted',
      toChart: ['preSnapAdjustments'],
    });
    expect(report.topics.find(({ topic }) => topic === 'decisions')).not.toHaveProperty('silence');
  });
});

describe('a report on one play', () => {
  it('speaks of one snap as of one', async () => {
    const { topics, text } = await reportOn([aPlayRecord({ down: 1, distance: 10, callFamily: 'run' })]);
    expect(topics.find(({ topic }) => topic === 'duel')?.note).toBe('not charted on the one snap');
    expect(sectionOf(text, UNTOLD)).toMatch(/^Offense, 1 snap of 1 game, so little that only counts are told\. /);
    for (const { note } of topics) expect(note).not.toMatch(/\b1 (snaps|games|plays|pairs)\b|of 0 /);
  });
});

describe('a report on thirty half-filled plays', () => {
  let report: Awaited<ReturnType<typeof reportOn>>;
  beforeAll(async () => {
    report = await reportOn(
      Array.from({ length: 30 }, (_, place) =>
        aPlayRecord({
          ...{ order: place + 1, quarter: place < 15 ? 1 : 3 },
          ...(place % 2 === 0 && { down: 1, distance: 10 }),
          ...(place % 3 === 0 && { callFamily: place % 6 === 0 ? 'run' : 'dropback pass' }),
          ...(place % 5 === 0 && { formation: 'bunch' }),
        }),
      ),
    );
  });

  // Wilson at 90 % of 5 in 10: 0.5 ± 1.645 / 12.706 x sqrt(2.5 + 0.676) = 27 to 73 %.
  it('tells what there is, with on how many snaps it is known', () => {
    const used = sectionOf(report.text, 'Offense: most used, all snaps');
    expect(used).toContain('- run (call family): 5 of 10 (50 %, 27-73 %); known on 10 of 30');
    expect(used).toContain('- bunch (formation): 6 of 6; known on 6 of 30');
    expect(oneLine(report.text)).toContain('1st and 10 15 run or pass called: run, 5 of 5; known on 5 of 15');
  });

  it('says how little that rests on, and what to chart to change it', () => {
    const untold = sectionOf(report.text, UNTOLD);
    expect(untold).toMatch(/^Offense, 30 snaps of 1 game\. Never charted: concept; backfield; motion; /);
    expect(untold).toContain('Seldom known: run or pass called on 10; call family on 10; formation on 6.');
    expect(untold).toMatch(/Too little film for: tells; looks used otherwise than by the field; leads, not proven;/);
    expect(untold).toMatch(/To change that, add to the charts there are: pre snap adjustments, off design, tempo, /);
    for (const form of [report.markdown, report.page]) {
      expect(form).toContain('Seldom known: run or pass called on 10; call family on 10; formation on 6.');
    }
  });
});

describe('a report on a thin film where an archive says what film would teach', () => {
  const thin = Array.from({ length: 6 }, (_, at) =>
    aPlayRecord({ order: at + 1, quarter: 1, down: 1, distance: 10, callFamily: at < 4 ? 'run' : 'dropback pass' }),
  );
  // Three players who call unlike each other, over all quarters.
  const handles = ['Fen Otter', 'Reed Wren', 'Marsh Vole'];
  const games = handles.flatMap((handle, player) => {
    const game = `others-${player}`;
    return [
      aGameRecord({ reference: game, event: 'pond-cup', home: handle, away: handles[(player + 1) % 3] }),
      ...Array.from({ length: 40 }, (_, at) =>
        aPlayRecord({
          ...{
            game,
            offense: handle,
            order: at + 1,
            quarter: 1 + Math.floor(at / 10),
            down: 1 + (at % 3),
            distance: 10,
          },
          callFamily: at % (player + 2) === 0 ? 'run' : 'dropback pass',
        }),
      ),
    ];
  });
  const others = [...handles.map((handle) => ({ record: 'player', handle })), ...games];
  let report: Awaited<ReturnType<typeof reportOn>>;
  beforeAll(async () => {
    report = await reportOn(thin, others);
  });

  it('names the film to chart next, as text, Markdown and page', () => {
    const next =
      /To change that, chart next: [a-z, ]+ of their offense in Brass Heron - Mossback, Pond Cup, 2026-02-01, (key|all) fields \(about \d+ plays?, \d+ minutes?\)/;
    expect(sectionOf(report.text, UNTOLD)).toMatch(next);
    expect(report.page).toMatch(next);
    expect(report.markdown.replaceAll('\\', '')).toMatch(next);
  });

  it('keeps it as ids, without a handle', () => {
    const { chartNext } = report;
    expect(chartNext).toContainEqual({
      gameId: expect.stringMatching(/^[0-9a-f-]{36}$/),
      what: expect.any(String),
      side: 'offense',
      fields: expect.stringMatching(/^(key|all) fields$/),
      plays: expect.any(Number),
      minutes: expect.any(Number),
    });
    expect(JSON.stringify(chartNext)).not.toMatch(/Heron|Mossback/);
  });
});
