import { seededRandom } from '#domain/statistics/seeded-random.js';

/** How many rows, and how they fall out. */
export interface MessySheetSize {
  readonly games: number;
  readonly playsAGame: number;
  readonly seed: number;
}

const MESSY_HEADERS = [
  ...['Gm', 'Ball', 'Situation', 'Spot', 'Qtr', 'Clock', 'Look', 'D', 'Call', 'What', 'Gain', 'Mood', 'Note'],
];

/** How the sheet of `messySheet` is to be understood. */
export const MESSY_MAPPING = {
  name: 'messy sheet',
  headers: MESSY_HEADERS,
  columns: [
    { header: 'Gm', to: 'game' },
    { header: 'Ball', possession: { us: ['O', 'off'], them: ['D', 'def'] } },
    { header: 'Situation', read: 'down and distance' },
    { header: 'Spot', read: 'signed spot' },
    { header: 'Qtr', to: 'quarter', read: 'first number' },
    { header: 'Clock', to: 'clockSeconds' },
    { header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] },
    { header: 'D', split: ['front', 'shell', 'coverage'] },
    {
      header: 'Call',
      to: 'callFamily',
      words: [{ word: 'boot', is: { callFamily: 'moving pocket', playFake: 'yes' } }],
    },
    { header: 'What', to: 'snapResult', words: [{ word: 'nothing', is: {} }] },
    { header: 'Gain', to: 'yardsGained', read: 'first number' },
    { header: 'Mood', ignore: true },
  ],
  constants: { playType: 'scrimmage' },
  answers: [{ word: 'slot', is: { formation: 'twins' } }],
  us: 'Mossback',
  order: 'rows',
};

const LOOKS = [
  ['gun', 'GUN', 'pistol', 'I', 'strong I', 'under center', 'gun empty'],
  ['trips', '2x2', 'bunch', 'slot', 'twins', 'Trips', 'doubles', 'tight end trips'],
  ['rt', 'lt', 'R', 'left', 'balanced'],
  ['jet', 'orbit', 'static', 'short in', 'yo-yo'],
] as const;
const DEFENSES = ['cover 3', 'cover 1', 'quarters', 'Cover-2', 'cover 3', ''];
const CALLS = ['run', 'rush', 'RPO', 'quick game', 'play pass', 'screen', 'boot', 'pass', '?', ''];
const RESULTS = ['rushed', 'completion', 'incompletion', 'sack', 'nothing', 'scramble', ''];

/**
 * A sheet as people really keep them, of invented plays: several facts in a cell, in any order and case, notations of
 * their own, gaps, moods. One row in twenty has a word that nobody knows.
 *
 * @param games - their references, as many as the size says
 */
export function* messySheet(size: MessySheetSize, games: readonly string[]): Generator<string> {
  const random = seededRandom(size.seed);
  const below = (count: number): number => Math.floor(random() * count);
  const pick = (words: readonly string[]): string => words[below(words.length)] ?? '';
  yield `${MESSY_HEADERS.join(',')}\n`;
  for (const game of games.slice(0, size.games)) {
    let rows = '';
    for (let play = 0; play < size.playsAGame; play += 1) {
      const look = LOOKS.map((words) => (random() < 0.8 ? pick(words) : '')).filter((word) => word !== '');
      if (random() < 0.3) look.reverse();
      if (random() < 0.05) look.push('zzz');
      const yards = 12 + below(37);
      const cells = [
        ...[game, pick(['O', 'D', 'off', 'DEF']), `${1 + below(4)}${pick([' & ', '-', ' and '])}${1 + below(10)}`],
        ...[random() < 0.5 ? `-${yards}` : `+${yards}`, `Q${1 + below(4)}`, `${below(5)}:${10 + below(50)}`],
        ...[look.join(pick([' ', ' / '])), pick(DEFENSES), pick(CALLS), pick(RESULTS)],
        ...[`${below(11)}${pick(['', ' yds'])}`, pick(['good', 'tired', '']), random() < 0.05 ? '"look, again"' : ''],
      ];
      rows += `${cells.join(',')}\n`;
    }
    yield rows;
  }
}
