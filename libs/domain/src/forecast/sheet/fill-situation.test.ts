import type { PlayValue } from '../../charting/play-columns.js';
import { FLAG, PLAY_FIELDS, PLAY_TYPES, type PlayFieldName } from '../../charting/play-fields.js';
import { fillSituation, type SheetPlay } from './fill-situation.js';

type Told = Partial<Record<PlayFieldName, number>>;

const KNOWN: Told = {
  ...{ quarter: 2, clockSeconds: 300, scoreDifference: -3, offenseTimeouts: 2, defenseTimeouts: 3, drive: 4 },
  ...{ down: 1, distance: 10, yardsToGoal: 60, yardsGained: 4 },
};

function aPlay(told: Told, offense = 0, playType: (typeof PLAY_TYPES)[number] = 'scrimmage'): SheetPlay {
  const all: Told = { playType: PLAY_TYPES.indexOf(playType), ...told };
  return { values: PLAY_FIELDS.map(({ name }) => all[name] ?? null), offense, defense: 1 - offense };
}

function told(values: readonly PlayValue[] | undefined): Told {
  return Object.fromEntries(
    PLAY_FIELDS.flatMap(({ name }, place) => {
      const value = values?.[place];
      return typeof value === 'number' && name !== 'playType' ? [[name, value]] : [];
    }),
  );
}

const second = (...plays: readonly SheetPlay[]): Told => told(fillSituation(plays).values[1]);

describe('blanks of the situation', () => {
  it('are filled by what the play before leaves', () => {
    expect(second(aPlay(KNOWN), aPlay({}))).toEqual({
      ...{ quarter: 2, clockSeconds: 275, scoreDifference: -3, offenseTimeouts: 2, defenseTimeouts: 3, drive: 4 },
      ...{ down: 2, distance: 6, yardsToGoal: 56 },
    });
  });

  it('begin a new series after a first down, with the goal for a line where it is nearer', () => {
    const gained = (yardsToGoal: number): Told => second(aPlay({ ...KNOWN, yardsToGoal, yardsGained: 12 }), aPlay({}));
    expect(gained(60)).toMatchObject({ down: 1, distance: 10, yardsToGoal: 48 });
    expect(gained(17)).toMatchObject({ down: 1, distance: 5, yardsToGoal: 5 });
  });

  it('see score and timeouts from the other side once the ball has changed hands, and no spot', () => {
    expect(second(aPlay(KNOWN), aPlay({}, 1))).toEqual({
      ...{ quarter: 2, clockSeconds: 275, scoreDifference: 3, offenseTimeouts: 3, defenseTimeouts: 2 },
    });
  });

  it.each([
    { after: 'a kick', play: aPlay(KNOWN, 0, 'punt') },
    { after: 'a foul', play: aPlay({ ...KNOWN, foulSide: 0 }) },
    { after: 'a replayed snap', play: aPlay({ ...KNOWN, replayed: FLAG.indexOf('yes') }) },
    { after: 'a snap whose gain is not known', play: aPlay({ quarter: 2, down: 1, distance: 10, yardsToGoal: 60 }) },
  ])('say nothing of down and spot after $after', ({ play }) => {
    const next = second(play, aPlay({}));
    expect([next.down, next.distance, next.yardsToGoal]).toEqual([undefined, undefined, undefined]);
  });

  it('have no clock from another quarter', () => {
    expect(second(aPlay(KNOWN), aPlay({ quarter: 3 })).clockSeconds).toBeUndefined();
  });

  it('stay where no earlier play knows more, and a later play tells an earlier one nothing', () => {
    const { values, filled } = fillSituation([aPlay({}), aPlay(KNOWN), aPlay({ ...KNOWN, down: 3, clockSeconds: 20 })]);
    expect(filled).toBe(0);
    expect(values.map((one) => told(one))).toEqual([{}, KNOWN, { ...KNOWN, down: 3, clockSeconds: 20 }]);
  });
});
