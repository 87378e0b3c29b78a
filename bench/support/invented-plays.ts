import { narrow, PlayColumns, type Column } from '#domain/charting/play-columns.js';
import { playField, type PlayFieldName } from '#domain/charting/play-fields.js';
import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { seededRandom, type RandomSource } from '#domain/statistics/seeded-random.js';

/** Fields that a careful chart fills, and how often; the snaps that follow each other make no drives. */
const CHARTED: readonly (readonly [name: PlayFieldName, known: number])[] = [
  ['quarter', 1],
  ['clockSeconds', 1],
  ['scoreDifference', 1],
  ['down', 1],
  ['distance', 1],
  ['yardsToGoal', 1],
  ['hash', 0.9],
  ['drive', 1],
  ['tempo', 0.5],
  ['offensivePersonnel', 0.8],
  ['formation', 0.95],
  ['strength', 0.9],
  ['backfield', 0.9],
  ['motion', 0.8],
  ['front', 0.6],
  ['shell', 0.7],
  ['boxCount', 0.5],
  ['lineUpSecond', 0.9],
  ['snapSecond', 1],
  ['callFamily', 0.95],
  ['concept', 0.8],
  ['designedSide', 0.6],
  ['coverage', 0.4],
  ['rushers', 0.6],
  ['pressure', 0.4],
  ['target', 0.5],
  ['targetDepth', 0.5],
  ['snapResult', 1],
  ['yardsGained', 1],
];

/** Inclusive ranges narrower than the catalogue's, where that one would make nonsense. */
const RANGES: Partial<Record<PlayFieldName, readonly [number, number]>> = {
  quarter: [1, 4],
  clockSeconds: [0, 240],
  scoreDifference: [-14, 14],
  distance: [1, 14],
  yardsToGoal: [20, 90],
  drive: [1, 20],
  boxCount: [5, 8],
  rushers: [3, 6],
  yardsGained: [-4, 16],
};

const MOST_WORDS = 12;

/**
 * Charts of invented plays as columns, the two players with the ball by turns. Numbers and words are drawn one by one:
 * they contradict each other and never agree with a habit, which is all that a measurement of time needs.
 */
export function inventedCharts(charts: number, playsAChart: number, seed: number): PlayColumns[] {
  const random = seededRandom(seed);
  const columns = new Map(CHARTED.map(([name, known]) => [name, pool(name, known, random)]));
  const scrimmage: Column = { codes: new Int8Array(playsAChart), meanings: [0] };
  return Array.from({ length: charts }, (_, chart) => {
    const drawn = [...columns].map(([name, draw]): [PlayFieldName, Column] => [name, draw(playsAChart)]);
    return new PlayColumns({
      charts: [{ chartId: `chart-${chart}`, gameId: `game-${chart}` }],
      chartIndex: new Int32Array(playsAChart),
      playNumber: Uint16Array.from({ length: playsAChart }, (_play, place) => place + 1),
      orderInGame: Uint16Array.from({ length: playsAChart }, (_play, place) => place + 1),
      offenseIsHome: Uint8Array.from({ length: playsAChart }, (_play, place) => place % 2),
      columns: new Map<PlayFieldName, Column>([['playType', scrimmage], ...drawn]),
    });
  });
}

/** Values drawn once and dealt out from a random place on, since drawing each of thirty million would take minutes. */
const POOL = 65_536;

function pool(name: PlayFieldName, known: number, random: RandomSource): (plays: number) => Column {
  const field = playField(name);
  const isKnown = Uint8Array.from({ length: POOL }, () => (random() < known ? 1 : 0));
  const start = (plays: number): number => Math.floor(random() * (POOL - plays));
  if (field?.type === 'number') {
    const [least, most] = RANGES[name] ?? [field.minimum, Math.min(field.maximum, field.minimum + 60)];
    const values = Int16Array.from(isKnown, (is) =>
      is === 1 ? least + Math.floor(random() * (most - least + 1)) : -32_768,
    );
    return (plays) => {
      const from = start(plays);
      return { values: values.slice(from, from + plays) };
    };
  }
  const meanings = wordsOf(name);
  // Squared, so that some words are much more frequent than others, as in life.
  const codes = narrow(
    Array.from(isKnown, (is) => (is === 1 ? Math.floor(random() ** 2 * meanings.length) : -1)),
    meanings.length,
  );
  return (plays) => {
    const from = start(plays);
    return { codes: codes.slice(from, from + plays), meanings };
  };
}

function wordsOf(name: PlayFieldName): number[] {
  const field = playField(name);
  if (field?.type === 'choice') return field.choices.map((_, place) => place);
  if (field?.type !== 'term') return [];
  return starterVocabulary()
    .rows(field.kind)
    .slice(0, MOST_WORDS)
    .map(({ id }) => id);
}
