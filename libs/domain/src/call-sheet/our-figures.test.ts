import { starterVocabulary } from '../charting/vocabulary.js';
import { outcomesOf } from '../late-game/drive-rates.js';
import { chartedFacts, times, type ChartedRow } from '../tendencies/charted-rows.js';
import { CONVERSION_BANDS, fieldFigures, KICK_BANDS, ourFigures, type OurFigures } from './our-figures.js';

const third = (distance: number, yardsGained: number): ChartedRow => ({
  ...{ down: 3, distance, yardsToGoal: 50, yardsGained, callFamily: 'callFamily.run', snapResult: 'snapResult.rushed' },
});
const goal = (yardsToGoal: number, result: 'kick-good' | 'kick-missed'): ChartedRow => ({
  ...{ playType: 'field goal', down: 4, distance: 8, yardsToGoal, snapResult: `snapResult.${result}` },
});

/** Game 0 is ours, game 1 is somebody else's. */
function figuresOf(...games: readonly (readonly ChartedRow[])[]): OurFigures {
  const facts = chartedFacts(...games);
  const field = fieldFigures({
    facts,
    offenseOf: Int32Array.from(facts.plays.chartIndex),
    ...{ players: games.length, vocabulary: starterVocabulary() },
    games: games.map(() => ({ quarterSeconds: 300 })),
  });
  return ourFigures(field, { player: 0, confidence: 0.9 });
}

describe('our figures', () => {
  it('count third downs by yards to go, ours apart from everybody else', () => {
    const { conversions } = figuresOf([third(1, 3), third(1, 0), third(3, 4)], [third(1, 2), third(11, 2)]);
    const of = (name: string) => conversions[CONVERSION_BANDS.findIndex((band) => band.name === name)];
    expect(of('1')).toMatchObject({ own: { count: 1, known: 2 }, field: { count: 1, known: 1 } });
    expect(of('2-3')).toMatchObject({ own: { count: 1, known: 1 }, field: { count: 0, known: 0 } });
    expect(of('8 or more')).toMatchObject({ own: { count: 0, known: 0 }, field: { count: 0, known: 1 } });
  });

  it('count kicks by where they were from, each in one band', () => {
    const spots = [3, 10, 11, 20, 28, 29, 40, 41];
    const { kicks } = figuresOf(spots.map((spot) => goal(spot, spot > 28 ? 'kick-missed' : 'kick-good')));
    expect(kicks.map(({ own }) => own.known)).toEqual([2, 2, 1, 1, 1, 1]);
    expect(kicks.map(({ own }) => own.count)).toEqual([2, 2, 1, 0, 0, 0]);
    expect(kicks).toHaveLength(KICK_BANDS.length);
  });

  it('are a guess until anybody has tried it ten times, and lie between ours and the field after that', () => {
    const few = figuresOf(times(9, third(1, 2)));
    expect(few.conversions[0]?.isGuess).toBe(true);
    const { conversions } = figuresOf(times(6, third(1, 2)), [...times(5, third(1, 2)), ...times(5, third(1, 0))]);
    const [one] = conversions;
    expect(one?.isGuess).toBe(false);
    expect(one?.share).toBeGreaterThan(0.5);
    expect(one?.share).toBeLessThan(1);
  });

  it('count what drives end with, a drive once', () => {
    const drive = (number: number, ...rows: ChartedRow[]): ChartedRow[] =>
      rows.map((row) => ({ ...row, drive: number }));
    const run: ChartedRow = third(5, 2);
    const touchdown: ChartedRow = { ...third(5, 50), ledTo: ['ledTo.touchdown-offense'] };
    const { drives } = figuresOf([
      ...drive(1, run, run, touchdown),
      ...drive(3, run, goal(20, 'kick-good')),
      ...drive(5, run, goal(20, 'kick-missed')),
      ...drive(7, run),
      run,
    ]);
    expect(drives.touchdown.own).toEqual({ count: 1, known: 4 });
    expect(drives.fieldGoal.own).toEqual({ count: 1, known: 4 });
    const { touchdown: ends, fieldGoal } = outcomesOf(drives);
    expect(ends + fieldGoal).toBeLessThanOrEqual(1);
  });

  it('take twenty minutes over what drives there were, with four believed ones', () => {
    const { secondsADrive } = figuresOf(
      Array.from({ length: 12 }, (_, drive): ChartedRow => ({ ...third(5, 2), drive: drive + 1 })),
    );
    expect(secondsADrive).toMatchObject({ of: 12, isGuess: false });
    expect(secondsADrive.mean).toBeCloseTo((4 * 300 + 4 * 105) / (12 + 4), 9);
  });
});
