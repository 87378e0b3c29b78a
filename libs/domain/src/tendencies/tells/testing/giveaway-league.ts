import { calledRunOrPass, starterVocabulary } from '../../../charting/vocabulary.js';
import { drawDirichlet } from '../../../statistics/draw-dirichlet.js';
import { seededRandom, type RandomSource } from '../../../statistics/seeded-random.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../classify-plays.js';
import { choice, columnsOfRows, type Row } from '../../sequences/testing/rows-to-columns.js';
import type { TendencyPlays } from '../../tendency-plays.js';
import { DEFAULT_TELL_LEVEL } from '../tells.js';
import { giveaways } from '../giveaways.js';
import { draw, pick, whole } from './draws.js';

// Test support: everybody's plays, where each player has a taste of its own in looks and in calls, by situation, and each
// game a plan around it. Unless it is planted, no look goes with the call.

export interface GiveawayLeagueSettings {
  readonly seed: number;
  readonly games: number;
  /** Of either side. */
  readonly snaps: number;
  readonly players: number;
  /** Prior weight in plays by which a player's shares lie around everybody's: the smaller, the more players differ. */
  readonly taste: number;
  /** Prior weight in plays by which a game's shares lie around the player's. */
  readonly plan: number;
  /** Points of share by which one motion brings the call. */
  readonly planted: number;
}

export interface FoundGiveaways {
  /** Whether any look was told that was not planted. */
  readonly wrong: boolean;
  readonly found: boolean;
}

const VOCABULARY = starterVocabulary();

const LOOKS = [
  { field: 'formation', values: 10, weight: 1.2 },
  { field: 'motion', values: 5, weight: 1.5 },
  { field: 'backfield', values: 5, weight: 1.5 },
  { field: 'offensivePersonnel', values: 4, weight: 1.5 },
  { field: 'tempo', values: 3, weight: 2 },
] as const;
const CONCEPTS = 14;
const KNOWN = 0.88;
/** Of the looks the one and its value that brings the call where that is planted. */
const [PLANTED_LOOK, PLANTED_VALUE] = [1, 1];

// Down and distance roughly as they fall, one a situation of the finder's; common practice, no source. Rare ones leave plays
// alone in their group.
const SITUATIONS = [
  { share: 0.36, down: 1, distance: 10 },
  { share: 0.05, down: 1, distance: 15 },
  { share: 0.08, down: 2, distance: 2 },
  { share: 0.11, down: 2, distance: 5 },
  { share: 0.14, down: 2, distance: 9 },
  { share: 0.03, down: 2, distance: 14 },
  { share: 0.07, down: 3, distance: 1 },
  { share: 0.06, down: 3, distance: 5 },
  { share: 0.06, down: 3, distance: 9 },
  { share: 0.02, down: 3, distance: 14 },
  { share: 0.02, down: 4, distance: 1 },
] as const;
const SITUATION_SHARES = SITUATIONS.map(({ share }) => share);

/** What is found to give the first call of a league away, as a study of it asks. */
export function giveawaysFound(settings: GiveawayLeagueSettings): FoundGiveaways {
  const { facts, playerOf, asked, plantedKey } = giveawayLeague(settings);
  const { codes, meanings } = facts.plays.code('concept');
  const { found } = giveaways({
    facts,
    side: 'offense',
    playerOf,
    vocabulary: VOCABULARY,
    codes: Int16Array.from(codes, (code) => (code < 0 ? -1 : meanings[code] === asked ? 0 : 1)),
    label: 'the call',
    partsOfCall: [],
    confidence: 0.9,
    level: DEFAULT_TELL_LEVEL,
  });
  const isPlanted = ({ cue, cueValue }: (typeof found)[number]): boolean =>
    settings.planted > 0 && cue.names.includes('motion') && cueValue.key === plantedKey;
  return { wrong: found.some((one) => !isPlanted(one)), found: found.some(isPlanted) };
}

function giveawayLeague({ seed, games, snaps, players, taste, plan, planted }: GiveawayLeagueSettings): {
  readonly facts: TendencyPlays;
  readonly playerOf: Int32Array;
  readonly asked: number;
  readonly plantedKey: string;
} {
  const random = seededRandom(seed);
  const concepts = pick(
    random,
    VOCABULARY.rows('concept').filter(({ id }) => calledRunOrPass(VOCABULARY, null, id) !== null),
    CONCEPTS,
  ).map(({ id }) => id);
  const terms = LOOKS.map(({ field, values }) =>
    pick(
      random,
      VOCABULARY.rows(field).map(({ id }) => id),
      values,
    ),
  );
  const usual = [
    ...LOOKS.map(({ weight }, look) =>
      drawDirichlet(
        random,
        (terms[look] ?? []).map(() => weight),
      ),
    ),
    drawDirichlet(
      random,
      concepts.map(() => 1.5),
    ),
  ];
  const habits = Array.from({ length: players }, () =>
    usual.map((shares) => SITUATIONS.map(() => around(random, shares, taste))),
  );
  const rows: Row[] = [];
  const playerOf: number[] = [];
  for (let side = 0; side < 2 * games; side += 1) {
    const player = whole(random, players);
    const plans = (habits[player] ?? []).map((situations) => situations.map((shares) => around(random, shares, plan)));
    for (let snap = 0; snap < snaps; snap += 1) {
      const at = draw(random, SITUATION_SHARES);
      const { down, distance } = SITUATIONS[at] ?? SITUATIONS[0];
      const drawn = plans.map((situations) => draw(random, situations[at] ?? []));
      const brought = drawn[PLANTED_LOOK] === PLANTED_VALUE && random() < planted;
      const concept = brought ? 0 : (drawn[LOOKS.length] ?? 0);
      const known = (id: number | undefined): number | null => (random() < KNOWN ? (id ?? null) : null);
      rows.push({
        chart: side,
        order: snap + 1,
        values: {
          playType: choice('playType', 'scrimmage'),
          ...{ down, distance, yardsToGoal: 55 },
          ...Object.fromEntries(LOOKS.map(({ field }, look) => [field, known(terms[look]?.[drawn[look] ?? -1])])),
          concept: known(concepts[concept]),
        },
      });
      playerOf.push(player);
    }
  }
  const fields = [
    ...LOOKS.map(({ field }) => field),
    'playType',
    'down',
    'distance',
    'yardsToGoal',
    'concept',
  ] as const;
  return {
    facts: classifyPlays(columnsOfRows(rows, fields), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS),
    playerOf: Int32Array.from(playerOf),
    asked: concepts[0] ?? -1,
    plantedKey: `term:${terms[PLANTED_LOOK]?.[PLANTED_VALUE] ?? -1}`,
  };
}

function around(random: RandomSource, shares: readonly number[], weight: number): readonly number[] {
  return drawDirichlet(
    random,
    shares.map((share) => Math.max(1e-3, share * weight)),
  );
}
