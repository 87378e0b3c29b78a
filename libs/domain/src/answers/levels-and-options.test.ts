import { chartedFacts, times, type ChartedRow } from '../tendencies/charted-rows.js';
import { answerLevels, callLevels } from './levels.js';
import { answersOf, callsOf, menuOptions } from './options.js';
import { heldMesh, idOf, menuCall, modelOf, snap, VOCABULARY } from './testing/small-archive.js';

const called = (concept: string): ChartedRow => ({ concept: `concept.${concept}`, down: 1, distance: 10 });
const met = (of: { front?: string; coverage?: string; pressure?: string }): ChartedRow => ({
  ...called('mesh'),
  ...(of.front === undefined ? {} : { front: `front.${of.front}` }),
  ...(of.coverage === undefined ? {} : { coverage: `coverage.${of.coverage}` }),
  ...(of.pressure === undefined ? {} : { pressure: `pressure.${of.pressure}` }),
});

describe('levels of calls', () => {
  it('are concepts from eight plays on; a rarer one counts with its family', () => {
    const facts = chartedFacts([...times(8, called('mesh')), ...times(7, called('counter-read'))]);
    const { codes, levels } = callLevels(facts, VOCABULARY);
    expect(levels[codes[0] ?? -1]).toMatchObject({ conceptId: idOf('concept.mesh') });
    expect(levels[codes[8] ?? -1]).toMatchObject({ conceptId: null, familyId: idOf('callFamily.option') });
  });

  it('know the family that a concept would be rolled up to, and nothing where no call was seen', () => {
    const facts = chartedFacts([...times(8, called('mesh')), { down: 1, distance: 10 }]);
    const { codes, levels, rolledUp } = callLevels(facts, VOCABULARY);
    expect(levels[rolledUp[codes[0] ?? -1] ?? -1]).toMatchObject({ familyId: idOf('callFamily.dropback-pass') });
    expect(codes[8]).toBe(-1);
  });
});

describe('levels of answers', () => {
  it('keep apart what was not seen, say which parts were not, and roll up what is rare', () => {
    const facts = chartedFacts([
      ...times(8, met({ coverage: 'cover-3-sky' })),
      ...times(3, met({ coverage: 'cover-3-cloud' })),
      called('mesh'),
    ]);
    const { codes, levels } = answerLevels(facts, VOCABULARY);
    expect(levels[codes[0] ?? -1]).toMatchObject({
      label: 'cover 3 sky (front and pressure not seen)',
      ...{ coverageId: idOf('coverage.cover-3-sky'), frontId: null, detail: 'as seen' },
    });
    expect(levels[codes[8] ?? -1]).toMatchObject({ detail: 'rolled up', coverageId: null });
    expect(codes[11]).toBe(0);
    expect(levels[0]).toMatchObject({ detail: 'not seen' });
  });
});

describe('options of a menu', () => {
  it('are the levels that fit what a call says, with weights that add up to one', () => {
    const model = heldMesh();
    const sky = answersOf(model, menuCall('defense', { coverageId: idOf('coverage.cover-3') }));
    expect(sky).toMatchObject({ byItsLike: false });
    const [level] = sky?.levels ?? [];
    expect(model.answers.levels[level?.level ?? -1]?.coverageId).toBe(idOf('coverage.cover-3-sky'));
    const anything = [sky, callsOf(model, menuCall('offense', { conceptId: idOf('concept.mesh') }))];
    for (const option of anything) {
      expect(option?.levels.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    }
  });

  it('are told by their like where the archive never saw them, and say so', () => {
    const model = heldMesh();
    const like = answersOf(
      model,
      menuCall('defense', { coverageId: idOf('coverage.cover-1'), pressureId: idOf('pressure.six-man-pressure') }),
    );
    expect(like).toMatchObject({ byItsLike: true });
    expect(like?.levels.map(({ level }) => model.answers.levels[level]?.coverageId)).toEqual([
      idOf('coverage.cover-1'),
    ]);
    expect(callsOf(model, menuCall('offense', { conceptId: idOf('concept.counter-read') }))).toBeNull();
  });

  it('are only of the side that is asked for, and none for a call that says nothing', () => {
    const model = modelOf(times(9, snap('mesh', 'cover-1', 0.1)));
    const menu = [
      menuCall('defense', { id: 'a', coverageId: idOf('coverage.cover-1') }),
      menuCall('defense', { id: 'b' }),
      menuCall('offense', { id: 'c', conceptId: idOf('concept.mesh') }),
    ];
    expect(menuOptions(model, menu, 'defense').map(({ menu: of }) => of?.id)).toEqual(['a']);
    expect(menuOptions(model, menu, 'offense').map(({ menu: of }) => of?.id)).toEqual(['c']);
  });
});
