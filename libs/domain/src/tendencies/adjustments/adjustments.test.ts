import { starterVocabulary, Vocabulary } from '../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { AskedPlays } from '../decisions/asked-plays.js';
import { choice, columnsOfRows, termId, type Row } from '../sequences/testing/rows-to-columns.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { DEFAULT_ANSWER_LEVEL, duelAnswers } from './duel-answers.js';
import { duelTree } from './duel-tree.js';

const VOCABULARY = starterVocabulary();

function asked(facts: TendencyPlays, field: AskedPlays['field'] = null): AskedPlays {
  return { facts, field, player: -1, vocabulary: VOCABULARY, confidence: 0.9 };
}

function factsOf(sketches: readonly PlaySketch[]): TendencyPlays {
  return classifyPlays(chartOf(sketches), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

const SNAP: PlaySketch = { down: 1, distance: 10, yardsToGoal: 60, callFamily: 'run', snapResult: 'rushed' };
const SHIFT = 'line-shifted';
const FLIP = 'play-mirrored';
const DUELS = factsOf([
  { ...SNAP, preSnapAdjustments: [SHIFT, FLIP], yardsGained: 6 },
  { ...SNAP, preSnapAdjustments: [SHIFT, FLIP], yardsGained: 0 },
  { ...SNAP, preSnapAdjustments: [SHIFT], yardsGained: 2 },
  { ...SNAP, preSnapAdjustments: [FLIP, SHIFT], yardsGained: 2 },
  { ...SNAP, preSnapAdjustments: [] },
  SNAP,
]);

describe('the tree of the duel', () => {
  const { snaps, known, root } = duelTree(asked(DUELS), 3);

  it('says on how many snaps it is known, and takes an empty list for no move', () => {
    expect({ snaps, known }).toEqual({ snaps: 6, known: 5 });
    expect(root.snapped).toBe(1);
  });

  it('has a node for each path, with who did what, counts, results and plays', () => {
    const shifted = root.children[0];
    expect(shifted?.path.map(({ by, label }) => [by, label])).toEqual([['defense', 'line shifted']]);
    expect(shifted?.share).toMatchObject({ count: 3, known: 5 });
    expect(shifted?.snapped).toBe(1);
    const flipped = shifted?.children[0];
    expect(flipped?.path.map(({ by }) => by)).toEqual(['defense', 'offense']);
    expect(flipped?.share).toMatchObject({ count: 2, known: 3 });
    expect(flipped?.results).toMatchObject({ trials: 2, successes: 1, yards: { plays: 2, mean: 3 } });
    expect(flipped?.share.evidence.references().map(({ playNumber }) => playNumber)).toEqual([1, 2]);
  });

  it('is conserved: plays at a node went on to its children or were snapped there', () => {
    const check = (node: typeof root): void => {
      const onwards = node.children.reduce((sum, child) => sum + child.share.count, 0);
      expect(onwards + node.snapped).toBe(node === root ? known : node.share.count);
      node.children.forEach(check);
    };
    check(root);
  });

  it('shows the share of the field at the same point', () => {
    const field = { facts: DUELS, playerOf: Int32Array.of(1, 1, 1, 1, 2, 1) };
    const node = duelTree({ ...asked(DUELS, field), player: 2 }, 2).root.children[0];
    expect(node?.share.field).toMatchObject({ count: 3, known: 4 });
  });

  it('is empty for a player without plays, and refuses no depth', () => {
    const nobody = duelTree(asked(factsOf([])), 2);
    expect(nobody).toMatchObject({ snaps: 0, known: 0 });
    expect(nobody.root.share.raw).toBeNull();
    expect(() => duelTree(asked(DUELS), 0)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});

describe('answers in the duel', () => {
  it('come after what was shown, and are held against the same move without it', () => {
    const answers = duelAnswers(asked(DUELS), 'offense', 0.1);
    const flips = answers.find(({ answer }) => answer?.label === 'play mirrored');
    // Of four plays with the shift one flipped before it; one play has no shift.
    expect(flips?.share).toMatchObject({ count: 2, known: 4 });
    expect(flips?.anyway).toEqual({ count: 0, known: 1 });
    expect(flips?.pValue).toBeNull();
    const none = answers.find(({ answer }) => answer === null);
    expect(none?.share).toMatchObject({ count: 2, known: 4 });
  });

  it('turn around for a defense', () => {
    const [first] = duelAnswers(asked(DUELS), 'defense', 0.1);
    expect(first?.shown.label).toBe('play mirrored');
    expect(first?.share.known).toBe(3);
  });

  it("leave out a clan's own term of no known side", () => {
    const own = {
      id: 9_999,
      kind: 'preSnapAdjustment',
      code: null,
      name: 'wave',
      parentId: null,
      starterId: null,
    } as const;
    const rows = ['line-shifted', 'play-mirrored'].map((name) => termId(`preSnapAdjustment.${name}`));
    const terms = rows.flatMap((id) => VOCABULARY.byId(id) ?? []);
    const vocabulary = new Vocabulary([...terms, { ...own, synonyms: [] }]);
    const plays = columnsOfRows(
      [{ chart: 0, order: 1, values: { playType: 0, preSnapAdjustments: [9_999, ...rows] } }],
      ['playType', 'preSnapAdjustments'],
    );
    const facts = classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
    expect(duelTree({ ...asked(facts), vocabulary }, 1).root.children[0]?.path[0]).toMatchObject({ by: null });
    const answers = duelAnswers({ ...asked(facts), vocabulary }, 'offense', 0.1);
    expect(answers.map(({ shown, answer }) => [shown.label, answer?.label])).toEqual([
      ['line shifted', 'play mirrored'],
    ]);
  });
});

const THEIRS = ['line-shifted', 'safeties-rotated', 'pressure-added', 'whole-defense-mirrored'];
const MINE = ['play-mirrored', 'check-to-run', 'back-kept-in', 'early-snap', 'hard-count'];
const PLANTED = { shown: 'safeties rotated', answer: 'check to run' };

/** A player's duels over six games; moves depend on the down and on each game's plan, and answers only where planted. */
function simulatedDuels(random: RandomSource, planted: number): TendencyPlays {
  const taste = [...THEIRS, ...MINE].map(() => 0.08 + 0.2 * random());
  const rows: Row[] = [];
  for (let chart = 0; chart < 6; chart += 1) {
    const plan = taste.map((share) => share * (0.6 + 0.8 * random()));
    for (let order = 1; order <= 45; order += 1) {
      const down = 1 + Math.floor(random() * 3);
      // On third down everything happens more often, so that moves go together without answering each other.
      const moves = (names: readonly string[], from: number): string[] =>
        names.filter((_, place) => random() < (plan[from + place] ?? 0) * (down === 3 ? 1.8 : 0.8));
      const [theirs, mine] = [moves(THEIRS, 0), moves(MINE, THEIRS.length)];
      const answered = theirs.includes('safeties-rotated') && random() < planted;
      const all = [...theirs, ...mine.filter((name) => !answered || name !== 'check-to-run')];
      if (answered) all.push('check-to-run');
      rows.push({
        chart,
        order,
        values: {
          playType: choice('playType', 'scrimmage'),
          down,
          distance: down === 1 ? 10 : 5,
          yardsToGoal: 60,
          callFamily: termId('callFamily.run'),
          preSnapAdjustments: all.map((name) => termId(`preSnapAdjustment.${name}`)),
        },
      });
    }
  }
  const plays = columnsOfRows(rows, [
    'playType',
    'down',
    'distance',
    'yardsToGoal',
    'callFamily',
    'preSnapAdjustments',
  ]);
  return classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

describe('answers in simulated leagues', () => {
  it('are found where planted, and not where moves only go together by down and plan', () => {
    const found = (seed: number, leagues: number, planted: number): { any: number; right: number } => {
      let [any, right] = [0, 0];
      for (let league = 0; league < leagues; league += 1) {
        const facts = simulatedDuels(seededRandom(seed + league), planted);
        const standing = duelAnswers(asked(facts), 'offense', DEFAULT_ANSWER_LEVEL).filter(
          ({ established }) => established,
        );
        if (standing.length > 0) any += 1;
        if (standing.some((one) => one.shown.label === PLANTED.shown && one.answer?.label === PLANTED.answer))
          right += 1;
      }
      return { any, right };
    };
    const nothing = found(80_000, 200, 0);
    const something = found(90_000, 50, 0.35);
    const { upper } = wilsonInterval(nothing.any, 200, 0.95);
    console.log(
      `answers: false in ${nothing.any} of 200 null leagues (upper bound ${upper.toFixed(3)}), ` +
        `planted +35 points found in ${something.right} of 50`,
    );
    expect(upper).toBeLessThanOrEqual(0.12);
    expect(something.right / 50).toBeGreaterThanOrEqual(0.7);
  });
});
