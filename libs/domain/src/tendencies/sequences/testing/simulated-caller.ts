import { starterVocabulary } from '../../../charting/vocabulary.js';
import { drawDirichlet } from '../../../statistics/draw-dirichlet.js';
import type { RandomSource } from '../../../statistics/seeded-random.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../classify-plays.js';
import type { TendencyPlays } from '../../tendency-plays.js';
import { choice, columnsOfRows, termId, type Row } from './rows-to-columns.js';

// Test support: a player who calls plays, with habits that a test plants.

export interface CallerSettings {
  readonly games: number;
  readonly snapsAGame: number;
  /** How much a game's plan bends the player's shares: a Dirichlet's weight in plays; infinite for no plans. */
  readonly planConcentration: number;
  /** Chance that the family of a snap that succeeded is called again, whatever the situation. */
  readonly repeatAfterSuccess: number;
  /** Chance that the snap after a sack is a screen, whatever the situation. */
  readonly screenAfterSack: number;
}

export const FAMILIES = ['run', 'dropback-pass', 'quick-pass', 'play-action', 'screen'] as const;
const IDS = FAMILIES.map((family) => termId(`callFamily.${family}`));
const SCREEN = FAMILIES.indexOf('screen');
const SCRIMMAGE = choice('playType', 'scrimmage');
const RESULTS = {
  rushed: termId('snapResult.rushed'),
  complete: termId('snapResult.complete'),
  incomplete: termId('snapResult.incomplete'),
  sacked: termId('snapResult.sacked'),
};

/** The plays of one player's offense over several games, with every habit drawn anew. */
export function simulatedCaller(random: RandomSource, settings: CallerSettings): TendencyPlays {
  // A share of runs that falls with the distance, as everybody's does, and the rest as the player likes.
  const taste = drawDirichlet(random, [6, 6, 4, 3, 2]);
  const rows: Row[] = [];
  for (let game = 0; game < settings.games; game += 1) rows.push(...simulatedGame(random, settings, taste, game));
  const plays = columnsOfRows(rows, [
    'playType',
    'quarter',
    'drive',
    'down',
    'distance',
    'yardsToGoal',
    'callFamily',
    'snapResult',
    'yardsGained',
  ]);
  return classifyPlays(plays, starterVocabulary(), DEFAULT_FOOTBALL_SETTINGS);
}

function simulatedGame(random: RandomSource, settings: CallerSettings, taste: readonly number[], chart: number): Row[] {
  const plan = Number.isFinite(settings.planConcentration)
    ? drawDirichlet(
        random,
        taste.map((share) => Math.max(0.05, share * settings.planConcentration)),
      )
    : taste;
  const rows: Row[] = [];
  let [drive, down, distance, spot, before, after] = [1, 1, 10, 75, -1, 'nothing'];
  for (let snap = 0; snap < settings.snapsAGame; snap += 1) {
    let family = pick(random, inSituation(plan, down, distance));
    if (before >= 0 && after === 'success' && random() < settings.repeatAfterSuccess) family = before;
    if (after === 'sack' && random() < settings.screenAfterSack) family = SCREEN;

    const { result, gain } = play(random, family, spot);
    rows.push({
      chart,
      // Between two drives the other side has the ball.
      order: 10 * drive + snap,
      values: {
        playType: SCRIMMAGE,
        quarter: 1 + Math.floor((4 * snap) / settings.snapsAGame),
        drive,
        down,
        distance,
        yardsToGoal: spot,
        callFamily: IDS[family] ?? null,
        snapResult: result,
        yardsGained: gain,
      },
    });
    const percent = [40, 60, 100, 100][down - 1] ?? 100;
    after = result === RESULTS.sacked ? 'sack' : 100 * gain >= percent * distance ? 'success' : 'failure';
    before = family;
    spot -= gain;
    const isFirst = gain >= distance;
    if (spot <= 0 || spot >= 100 || (down === 3 && !isFirst) || crossesHalf(snap, settings)) {
      [drive, down, distance, spot, before, after] = [drive + 1, 1, 10, 75, -1, 'nothing'];
    } else if (isFirst) [down, distance] = [1, Math.min(10, spot)];
    else [down, distance] = [down + 1, distance - gain];
  }
  return rows;
}

function crossesHalf(snap: number, { snapsAGame }: CallerSettings): boolean {
  return Math.floor((2 * (snap + 1)) / snapsAGame) > Math.floor((2 * snap) / snapsAGame);
}

function inSituation(plan: readonly number[], down: number, distance: number): number[] {
  const lean = down === 1 ? 1 : distance <= 3 ? 2 : distance >= 8 ? 0.35 : 0.8;
  const weights = plan.map((share, family) => (family === 0 ? share * lean : share));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

function play(random: RandomSource, family: number, spot: number): { result: number; gain: number } {
  if (family === 0) return { result: RESULTS.rushed, gain: Math.min(spot, Math.floor(random() * 10) - 1) };
  const draw = random();
  if (draw < 0.12) return { result: RESULTS.sacked, gain: Math.max(spot - 99, -7) };
  if (draw < 0.45) return { result: RESULTS.incomplete, gain: 0 };
  return { result: RESULTS.complete, gain: Math.min(spot, 1 + Math.floor(random() * 16)) };
}

export function pick(random: RandomSource, shares: readonly number[]): number {
  let left = random();
  for (const [value, share] of shares.entries()) {
    left -= share;
    if (left < 0) return value;
  }
  return shares.length - 1;
}
