import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { drawNormal } from '../../statistics/draw-gamma.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { draw } from '../../tendencies/tells/testing/draws.js';
import {
  MECHANISM_LEVEL,
  MECHANISMS,
  mechanisms,
  type Clustering,
  type MechanismFlags,
  type MechanismName,
} from '../mechanisms.js';

// Test support: leagues in which what happens on a play depends on who plays and on the day, and, unless it is planted, on
// no answer.

export interface MechanismLeagueSettings {
  readonly seed: number;
  readonly games: number;
  readonly snaps: number;
  /** Standard deviations in logarithms of odds: of what each player lets happen on either side, and of a day. */
  readonly players: number;
  readonly day: number;
  /** Points of share by which the first answer makes the first mechanism more frequent on the first call. */
  readonly planted: number;
}

/** A report asks what held two runs and two passes, and what beat two coverages. */
const ASKED = { calls: 4, answers: 2 };

const [PLAYERS, CALLS, ANSWERS] = [16, 8, 8];
/** Weight by which players' tastes in calls and answers lie around even ones. */
const TASTE = 1.5;
const KNOWN = 0.88;
const USUAL: Readonly<Record<MechanismName, number>> = {
  'free rusher': 0.12,
  'forced off the design': 0.2,
  'block defeated': 0.15,
  'passer pressured': 0.25,
  'no gain or a loss': 0.2,
  'explosive play': 0.1,
};

export interface FoundMechanisms {
  /** Of the calls and coverages asked about, those with anything established that was not planted. */
  readonly wrong: number;
  readonly found: boolean;
}

/** What is established of the first calls and coverages, as a report asks about them, in one league. */
export function mechanismsFound(settings: MechanismLeagueSettings): FoundMechanisms {
  const { games, snaps, planted } = settings;
  const random = seededRandom(settings.seed);
  const tastes = (values: number): number[][] =>
    Array.from({ length: PLAYERS }, () => drawDirichlet(random, new Array<number>(values).fill(TASTE)));
  const [callTastes, answerTastes] = [tastes(CALLS), tastes(ANSWERS)];
  const effects = (count: number, deviation: number): number[] =>
    Array.from({ length: count * MECHANISMS.length }, () => deviation * drawNormal(random));
  const [offense, defense, day] = [
    effects(PLAYERS, settings.players),
    effects(PLAYERS, settings.players),
    effects(2 * games, settings.day),
  ];
  const count = 2 * games * snaps;
  const [call, answer] = [new Int16Array(count), new Int16Array(count)];
  const flags = Object.fromEntries(MECHANISMS.map((name) => [name, new Int8Array(count).fill(-1)])) as Record<
    MechanismName,
    Int8Array
  >;
  const clusterings = [
    { of: new Int32Array(count), clusters: 2 * games },
    { of: new Int32Array(count), clusters: PLAYERS },
    { of: new Int32Array(count), clusters: PLAYERS },
  ] as const;
  for (let play = 0; play < count; play += 1) {
    const side = Math.floor(play / snaps);
    const game = Math.floor(side / 2);
    const home = game % PLAYERS;
    // Never a player's own number: the rounds go by 1, 2, ... places.
    const away = (home + 1 + (Math.floor(game / PLAYERS) % (PLAYERS - 1))) % PLAYERS;
    const [ball, other] = side % 2 === 0 ? [home, away] : [away, home];
    [side, ball, other].forEach((cluster, place) => {
      const of = clusterings[place]?.of;
      if (of !== undefined) of[play] = cluster;
    });
    call[play] = draw(random, callTastes[ball] ?? []);
    answer[play] = draw(random, answerTastes[other] ?? []);
    MECHANISMS.forEach((name, place) => {
      const of = (by: readonly number[], level: number): number => by[level * MECHANISMS.length + place] ?? 0;
      const odds = Math.log(USUAL[name] / (1 - USUAL[name])) + of(offense, ball) + of(defense, other) + of(day, side);
      const more = place === 0 && call[play] === 0 && answer[play] === 0 ? planted : 0;
      const happens = random() < 1 / (1 + Math.exp(-odds)) + more;
      if (random() < KNOWN) flags[name][play] = happens ? 1 : 0;
    });
  }
  return judged(clusterings, flags, call, answer);
}

function judged(
  clusterings: readonly [Clustering, ...Clustering[]],
  flags: MechanismFlags,
  call: Int16Array,
  answer: Int16Array,
): FoundMechanisms {
  let [wrong, found] = [0, false];
  const all = Int32Array.from(call.keys());
  const ask = (whose: Int16Array, own: number, others: Int16Array, levels: number): void => {
    const seen = all.filter((play) => whose[play] === own);
    const met = Array.from({ length: levels }, (_, one) => seen.filter((play) => others[play] === one));
    const named = mechanisms(clusterings, flags, seen, met, { confidence: 0.9, level: MECHANISM_LEVEL }).flatMap(
      (ofOther, one) => ofOther.filter(({ established }) => established).map(({ name }) => ({ name, other: one })),
    );
    const isPlanted = (one: (typeof named)[number]): boolean =>
      own === 0 && one.other === 0 && one.name === MECHANISMS[0];
    if (named.some(isPlanted)) found = true;
    if (named.some((one) => !isPlanted(one))) wrong += 1;
  };
  for (let own = 0; own < ASKED.calls; own += 1) ask(call, own, answer, ANSWERS);
  for (let own = 0; own < ASKED.answers; own += 1) ask(answer, own, call, CALLS);
  return { wrong, found };
}
