import { drawDirichlet } from '../statistics/draw-dirichlet.js';
import { drawMultinomial } from '../statistics/draw-multinomial.js';
import { seededRandom, type RandomSource } from '../statistics/seeded-random.js';
import { shuffled } from '../statistics/shuffle.js';
import type { DimensionName } from '../tendencies/dimension-names.js';
import type { FieldSet, FilmBundle, FilmPart, QueueCell, QueueInput } from './charting-queue-shape.js';
import { chartingQueue } from './charting-queue.js';

const FIELDS: FieldSet = {
  name: 'all fields',
  dimensions: new Set<DimensionName>(['concept', 'coverage']),
  secondsAPlay: 45,
};
const WHOLE: FilmBundle = { name: 'all snaps', downs: null, quarters: null };
const THIRDS: FilmBundle = { name: 'third downs', downs: [3], quarters: null };

const aCell = (cell: Partial<QueueCell> = {}): QueueCell => ({
  ...{ player: 0, side: 'offense', situation: 0, dimension: 'concept' },
  ...{ variance: 0.1, weight: 10, meeting: 1 },
  ...cell,
});

const aPart = (part: Partial<FilmPart> = {}): FilmPart => ({
  ...{ game: 0, offense: 0, defense: -1, offenseIsHome: true, down: 1, quarter: 1 },
  ...{ plays: [4], recency: 1 },
  ...part,
});

const anInput = (input: Partial<QueueInput>): QueueInput => ({
  ...{ cells: [aCell()], parts: [aPart()], bundles: [WHOLE], fieldSets: [FIELDS] },
  ...{ knownShare: () => 1, minutes: 15, charters: 1 },
  ...input,
});

describe('the charting queue', () => {
  it('expects the variance to fall as the conjugate posterior does', () => {
    const { segments, before, after } = chartingQueue(anInput({}));
    expect(segments).toHaveLength(1);
    expect(segments[0]).toMatchObject({ plays: 4, minutes: 3, charter: 0, startsAfter: 0 });
    // v (A + n) / (A + n + k) by hand: 0.1 * 10 / 14.
    expect(before).toBeCloseTo(0.1, 12);
    expect(after).toBeCloseTo(1 / 14, 12);
    expect(segments[0]?.gain).toBeCloseTo(before - after, 12);
  });

  it('prefers whom the player will probably meet, what is less known, and what is recent', () => {
    const parts = [aPart({ game: 0 }), aPart({ game: 1, offense: 1 })];
    const first = (cells: readonly QueueCell[], film = parts): number | undefined =>
      chartingQueue(anInput({ cells, parts: film })).segments[0]?.game;
    expect(first([aCell({ meeting: 0.3 }), aCell({ player: 1, meeting: 0.6 })])).toBe(1);
    expect(first([aCell({ weight: 60 }), aCell({ player: 1, weight: 12 })])).toBe(1);
    const aged = [aPart({ game: 0, recency: 0.4 }), aPart({ game: 1, offense: 1 })];
    expect(first([aCell(), aCell({ player: 1 })], aged)).toBe(1);
  });

  it('counts a game between two probable opponents for both', () => {
    const cells = [aCell(), aCell({ player: 1, side: 'defense', dimension: 'coverage' })];
    const parts = [aPart({ game: 0 }), aPart({ game: 1, defense: 1 })];
    expect(chartingQueue(anInput({ cells, parts })).segments.map(({ game }) => game)).toEqual([1, 0]);
  });

  it('takes part of the film when the whole does not fit, and never the same snaps twice', () => {
    const parts = [aPart({ down: 1, plays: [20, 0] }), aPart({ down: 3, plays: [0, 8] })];
    const cells = [aCell(), aCell({ situation: 1 })];
    const short = chartingQueue(anInput({ cells, parts, bundles: [WHOLE, THIRDS], minutes: 8 }));
    expect(short.segments.map(({ bundle }) => bundle.name)).toEqual(['third downs']);
    const long = chartingQueue(anInput({ cells, parts, bundles: [WHOLE, THIRDS], minutes: 60 }));
    expect(long.segments.map(({ plays, downs }) => ({ plays, downs }))).toEqual([
      { plays: 8, downs: [3] },
      { plays: 20, downs: [1] },
    ]);
  });

  it('splits the work among charters, each within the time', () => {
    const parts = Array.from({ length: 8 }, (_, game) => aPart({ game, plays: [10] }));
    const { segments } = chartingQueue(anInput({ parts, charters: 2, minutes: 16 }));
    const minutes = [0, 1].map((charter) =>
      segments.filter((one) => one.charter === charter).reduce((sum, one) => sum + one.minutes, 0),
    );
    expect(minutes).toEqual([15, 15]);
  });

  it('refuses no time and no charter', () => {
    expect(() => chartingQueue(anInput({ minutes: 0 }))).toThrow(
      expect.objectContaining({ code: 'stats.invalid_number' }),
    );
    expect(() => chartingQueue(anInput({ charters: 0 }))).toThrow(
      expect.objectContaining({ code: 'stats.invalid_count' }),
    );
  });
});

describe('fifteen minutes of charting', () => {
  /**
   * Leagues are drawn with other seeds than anything that the queue sees: who is met how probably, how much is known,
   * what a game holds. Then the film is charted as chosen, snaps drawn from true shares that the posterior is about, and
   * the posterior variance of all cells is summed again.
   */
  it('as the queue says leave less unknown than most plays first, a minute, and than any order', () => {
    const advantages = { most: [] as number[], any: [] as number[] };
    for (let league = 0; league < 60; league += 1) {
      const random = seededRandom(1_000 + league);
      const input = aLeague(random);
      const queue = chartingQueue(input).segments.map(({ game, offenseIsHome, bundle, fieldSet }) => ({
        ...{ game, offenseIsHome, bundle, fieldSet },
      }));
      const pieces = piecesOf(input);
      const rate = (piece: Piece): number => 60 / piece.fieldSet.secondsAPlay + 1e-6 * playsIn(input, piece);
      const most = withinTime(
        input,
        [...pieces].sort((one, other) => rate(other) - rate(one)),
      );
      const any = withinTime(input, shuffled(random, pieces));
      const fall = (chosen: readonly Piece[]): number => chartedFall(input, chosen, seededRandom(5_000 + league));
      advantages.most.push(fall(queue) - fall(most));
      advantages.any.push(fall(queue) - fall(any));
    }
    for (const differences of [advantages.most, advantages.any]) {
      const mean = differences.reduce((sum, value) => sum + value, 0) / differences.length;
      const variance = differences.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (differences.length - 1);
      // Beyond what 60 leagues could show by chance.
      expect(mean / Math.sqrt(variance / differences.length)).toBeGreaterThan(4);
    }
  });
});

interface Piece {
  readonly game: number;
  readonly offenseIsHome: boolean;
  readonly bundle: FilmBundle;
  readonly fieldSet: FieldSet;
}

const VALUES = 6;
const QUICK: FieldSet = {
  name: 'calls',
  dimensions: new Set<DimensionName>(['coverage', 'concept']),
  secondsAPlay: 25,
};
const SLOW: FieldSet = {
  name: 'all',
  dimensions: new Set<DimensionName>(['concept', 'coverage', 'formation', 'front']),
  secondsAPlay: 45,
};

function aLeague(random: RandomSource): QueueInput {
  const opponents = 4;
  const odds = drawDirichlet(random, new Array<number>(opponents).fill(0.7));
  const cells: QueueCell[] = [];
  for (let player = 0; player < opponents; player += 1) {
    for (const side of ['offense', 'defense'] as const) {
      for (let situation = 0; situation < 6; situation += 1) {
        for (const dimension of side === 'offense'
          ? (['concept', 'formation'] as const)
          : (['coverage', 'front'] as const)) {
          const weight = 5 + 60 * random() ** 2;
          const shares = drawDirichlet(random, new Array<number>(VALUES).fill(1));
          const spread = 1 - shares.reduce((sum, share) => sum + share ** 2, 0);
          const meeting = odds[player] ?? 0;
          cells.push({ player, side, situation, dimension, variance: spread / (weight + 1), weight, meeting });
        }
      }
    }
  }
  const parts: FilmPart[] = [];
  for (let game = 0; game < 12; game += 1) {
    const recency = 0.3 + 0.7 * random();
    const home = Math.floor(random() * opponents);
    const away = random() < 0.3 ? (home + 1) % opponents : -1;
    for (const offenseIsHome of [true, false]) {
      for (let down = 1; down <= 4; down += 1) {
        for (let quarter = 1; quarter <= 4; quarter += 1) {
          const many = [3, 2, 1.4, 0.3][down - 1] ?? 0;
          const plays = Array.from({ length: 6 }, (_, situation) =>
            situation % 4 === (down - 1) % 4 ? many * (0.5 + random()) * 0.5 : 0,
          );
          const sides = offenseIsHome ? { offense: home, defense: away } : { offense: away, defense: home };
          parts.push({ game, ...sides, offenseIsHome, down, quarter, plays, recency });
        }
      }
    }
  }
  const bundles = [
    WHOLE,
    { name: 'third and fourth downs', downs: [3, 4], quarters: null },
    { name: 'first quarter', downs: null, quarters: [1] },
    { name: 'fourth quarter', downs: null, quarters: [4] },
  ];
  return { cells, parts, bundles, fieldSets: [QUICK, SLOW], knownShare: () => 0.8, minutes: 15, charters: 1 };
}

function piecesOf({ bundles, fieldSets }: QueueInput): Piece[] {
  return Array.from({ length: 12 }, (_, game) =>
    [true, false].flatMap((offenseIsHome) =>
      bundles.flatMap((bundle) => fieldSets.map((fieldSet) => ({ game, offenseIsHome, bundle, fieldSet }))),
    ),
  ).flat();
}

function partsOf({ parts }: QueueInput, { game, offenseIsHome, bundle }: Piece): FilmPart[] {
  return parts.filter(
    (part) =>
      part.game === game &&
      part.offenseIsHome === offenseIsHome &&
      (bundle.downs?.includes(part.down) ?? true) &&
      (bundle.quarters?.includes(part.quarter) ?? true),
  );
}

function playsIn(input: QueueInput, piece: Piece, done: ReadonlySet<FilmPart> = new Set()): number {
  return partsOf(input, piece)
    .filter((part) => !done.has(part))
    .reduce((sum, { plays }) => sum + Array.from(plays).reduce((all, one) => all + one, 0), 0);
}

function withinTime(input: QueueInput, pieces: readonly Piece[]): Piece[] {
  const done = new Set<FilmPart>();
  let left = input.minutes;
  return pieces.filter((piece) => {
    const takes = (playsIn(input, piece, done) * piece.fieldSet.secondsAPlay) / 60;
    if (takes === 0 || takes > left) return false;
    left -= takes;
    for (const part of partsOf(input, piece)) done.add(part);
    return true;
  });
}

/** Charts the pieces: snaps around what was expected, their values from shares drawn from the posterior. */
function chartedFall(input: QueueInput, pieces: readonly Piece[], random: RandomSource): number {
  const done = new Set<FilmPart>();
  const seen = new Map<QueueCell, number>();
  for (const piece of pieces) {
    for (const part of partsOf(input, piece)) {
      if (done.has(part)) continue;
      done.add(part);
      for (const cell of input.cells) {
        const own = cell.side === 'offense' ? part.offense : part.defense;
        if (own !== cell.player || !piece.fieldSet.dimensions.has(cell.dimension)) continue;
        const expected = part.recency * (part.plays[cell.situation] ?? 0) * input.knownShare(cell.dimension);
        const snaps = Math.floor(expected) + (random() < expected % 1 ? 1 : 0);
        seen.set(cell, (seen.get(cell) ?? 0) + snaps);
      }
    }
  }
  let fall = 0;
  for (const [cell, snaps] of seen) {
    const { variance, weight, meeting } = cell;
    // Any shares with the cell's variance will do: alike but for one, whose share solves 1 - Σs² = v (weight + 1).
    const alpha = sharesOf(variance * (weight + 1)).map((share) => share * weight);
    const counts = drawMultinomial(random, snaps, drawDirichlet(random, alpha));
    const after = alpha.map((value, at) => (value + (counts[at] ?? 0)) / (weight + snaps));
    const spread = 1 - after.reduce((sum, share) => sum + share ** 2, 0);
    fall += meeting * (variance - spread / (weight + snaps + 1));
  }
  return fall;
}

function sharesOf(spread: number): number[] {
  // s for one, (1 - s) / (VALUES - 1) for the others: a quadratic in s.
  const others = VALUES - 1;
  const [a, b, c] = [1 + 1 / others, -2 / others, 1 / others - (1 - spread)];
  const s = Math.min(0.999, (-b + Math.sqrt(Math.max(0, b ** 2 - 4 * a * c))) / (2 * a));
  return [s, ...new Array<number>(others).fill((1 - s) / others)];
}
