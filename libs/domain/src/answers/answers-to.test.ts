import { answersTo } from './answers-to.js';
import { callCodes, defenseOptionOf, IS_ANOTHER, IS_ASKED, optionOf, playsAgainst, playsOfCall } from './asked-call.js';
import { SituationCounts } from './situation-counts.js';
import { stagedAnswers } from './stages.js';
import { theirCalls } from './their-calls.js';
import { ALL_SNAPS } from '../tendencies/situation-keys.js';
import { heldMesh, idOf, menuCall, modelOf, snap } from './testing/small-archive.js';

const MODEL = heldMesh();
const MESH = { conceptId: idOf('concept.mesh') };
const places = playsOfCall(MODEL, MESH);
const call = optionOf(MODEL, 'mesh', places);
const question = { places, call, answering: 'defense' as const, menu: [], otherCalls: [], confidence: 0.9 };

describe('the plays of a call', () => {
  it('are those on which every part is what is asked for, and unknown where a part was not seen', () => {
    const model = modelOf([
      ...Array.from({ length: 8 }, () => snap('mesh', null, 0.1, { formation: 'formation.twins' })),
      snap('mesh', null, 0.1),
      snap('inside-zone', null, 0.1, { formation: 'formation.twins' }),
    ]);
    const codes = callCodes(model, { ...MESH, formationId: idOf('formation.twins') });
    expect([codes[0], codes[8], codes[9]]).toEqual([IS_ASKED, -1, IS_ANOTHER]);
    expect(playsOfCall(model, MESH)).toHaveLength(9);
    expect(playsOfCall(model, {})).toHaveLength(10);
  });
});

describe('answers', () => {
  it('put what holds the call first for a defense, with its plays, games and players', () => {
    const answers = answersTo(MODEL, question);
    const [sky, ...others] = answers;
    expect(answers).toHaveLength(3);
    expect(sky).toMatchObject({ plays: 30, games: 10, installed: false, price: null });
    expect(sky?.option.label).toBe('cover 3 sky (front and pressure not seen)');
    expect(others.at(-1)?.option.label).toBe('cover 1 (front and pressure not seen)');
    expect(sky?.players).toHaveLength(10);
    expect(sky?.evidence.places()).toHaveLength(30);
    // Drawn together, but not over each other.
    const apart = (others.at(-1)?.points.mean ?? 0) - (sky?.points.mean ?? 0);
    const raw = (of: readonly number[]): number =>
      of.reduce((sum, play) => sum + (MODEL.pointsAdded[play] ?? 0), 0) / of.length;
    expect(apart).toBeGreaterThan(0);
    expect(apart).toBeLessThan(raw(others.at(-1)?.evidence.places() ?? []) - raw(sky?.evidence.places() ?? []));
    expect(sky?.againstUsual.interval.upper).toBeLessThan(0);
    for (const { points, againstUsual } of answers) {
      expect(points.interval.lower).toBeLessThan(points.mean);
      expect(againstUsual.interval.upper).toBeGreaterThan(againstUsual.mean);
    }
  });

  it('put what gains the most first for an offense against a defense', () => {
    const against = playsAgainst(MODEL, { coverageId: idOf('coverage.cover-1') });
    const defense = defenseOptionOf(MODEL, 'cover 1', against);
    const answers = answersTo(MODEL, { ...question, places: against, call: defense, answering: 'offense' });
    expect(answers[0]?.option.label).toBe('mesh');
    expect(answers.map(({ points }) => points.mean)).toEqual(
      answers.map(({ points }) => points.mean).toSorted((one, other) => other - one),
    );
  });

  it('list what is installed before what is to install, and state the price if they adjust', () => {
    const zonePlays = playsOfCall(MODEL, { conceptId: idOf('concept.inside-zone') });
    const answers = answersTo(MODEL, {
      ...question,
      menu: [menuCall('defense', { coverageId: idOf('coverage.cover-1') })],
      otherCalls: [optionOf(MODEL, 'inside zone', zonePlays), call],
    });
    expect(answers.map(({ installed }) => installed)).toEqual([true, false, false]);
    const [lantern, sky] = answers;
    expect(lantern?.option.label).toBe('Lantern');
    // Against cover 1 mesh is their best, against cover 3 sky it is not.
    expect(lantern?.price?.option.label).toBe('mesh');
    expect(sky?.price?.option.label).toBe('inside zone');
    expect(lantern?.price?.points.mean).toBeCloseTo(lantern?.points.mean ?? Number.NaN, 9);
  });

  it('are none where an archive is too small to fit', () => {
    const small = modelOf([snap('mesh', 'cover-1', 1)]);
    expect(answersTo(small, question)).toEqual([]);
  });
});

describe('stages', () => {
  it('do not let a formation into the huddle', () => {
    const asked = { menu: [], otherCalls: [], confidence: 0.9, label: 'mesh' };
    const [any, twins] = [MESH, { ...MESH, formationId: idOf('formation.twins') }].map((of) =>
      stagedAnswers(MODEL, { ...asked, asked: of }),
    );
    expect(twins?.huddle.map(({ points }) => points)).toEqual(any?.huddle.map(({ points }) => points));
    expect(any).toMatchObject({ plays: 90, playsFromFormation: 90 });
    expect(twins).toMatchObject({ plays: 90, playsFromFormation: 0 });
  });
});

describe("an opponent's calls", () => {
  it('are counted by name, with posterior shares between its own and the field', () => {
    const counts = new SituationCounts(MODEL, 'offense');
    const { options, counts: own, alpha, plays } = theirCalls(MODEL, counts, ALL_SNAPS, 0);
    expect(options.map(({ label }) => label).sort()).toEqual(['inside zone', 'mesh', 'power', 'stick']);
    expect(own).toEqual([9, 9, 9, 9]);
    expect(plays).toBe(36);
    // Each its own nine, and an even part of what the field is worth.
    for (const weight of alpha) expect(weight).toBeGreaterThan(9);
    expect(Math.max(...alpha) - Math.min(...alpha)).toBeLessThan(1e-9);
  });

  it('that were seen but once are taken together by kind, with what the field does', () => {
    const model = modelOf(
      [...Array.from({ length: 8 }, () => snap('mesh', 'cover-1', 0)), snap('power', 'cover-1', 0)],
      Array.from({ length: 8 }, () => snap('power', 'cover-1', 0)),
    );
    const { options, counts: own } = theirCalls(model, new SituationCounts(model, 'offense'), ALL_SNAPS, 0);
    expect(options.map(({ label }) => label)).toEqual(['mesh', 'other runs']);
    expect(own).toEqual([8, 1]);
  });
});
