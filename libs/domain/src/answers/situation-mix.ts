import type { SituationKey } from '../tendencies/situation-keys.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { AnswerModel } from './answer-model.js';
import { callMix, type CallMix, type MixSettings } from './call-mix.js';
import { fittingCalls } from './fitting-calls.js';
import { menuOptions, playsByLevel, type CallOption, type MenuCall } from './options.js';
import type { PayoffTable } from './payoffs.js';
import type { SituationCounts } from './situation-counts.js';
import { theirCalls, type TheirCalls } from './their-calls.js';

export interface MixQuestion extends MixSettings {
  readonly situation: SituationKey;
  /** On which side of the ball the opponent is. */
  readonly theirSide: Side;
  /** Number of the opponent in the field. */
  readonly player: number;
  /** Our installed calls; of the side that faces the opponent's those are taken that fit, see `fittingCalls`. */
  readonly menu: readonly MenuCall[];
}

/** The mix of our calls against an opponent's in one situation. */
export interface SituationMix {
  readonly situation: SituationKey;
  /** Whose calls theirs are. */
  readonly theirSide: Side;
  readonly theirs: TheirCalls;
  readonly ours: readonly CallOption[];
  /** Whether ours are installed; else they are what the field does most, to install. */
  readonly installed: boolean;
  /** Our gain in points a play beside the situation's mean, ours x theirs, by posterior means. */
  readonly payoffs: readonly (readonly number[])[];
  readonly mix: CallMix;
}

/** Without a menu, this many of the field's calls stand in. A choice, no source. */
const MOST_STAND_INS = 8;

/**
 * Our call mix against an opponent in a situation. Rows and columns are whole calls as they are made in the huddle; what
 * is seen later conditions nothing. Payoffs take players of the field's mean on both sides, beside the mean of the
 * situation; from one situation to another differ what the opponent calls and, where the archive tells it, what calls and
 * answers give by yards to go.
 *
 * @param counts - of both sides of the ball
 * @returns null where nothing of the opponent's is known in the situation, or the archive was too small to fit
 * @throws DomainError as `callMix`
 */
export function situationMix(
  model: AnswerModel,
  table: PayoffTable,
  counts: Readonly<Record<Side, SituationCounts>>,
  { situation, theirSide, player, menu, ...settings }: MixQuestion,
): SituationMix | null {
  const theirs = theirCalls(model, counts[theirSide], situation, player);
  if (theirs.plays === 0 || theirs.options.length === 0) return null;
  const ourSide = theirSide === 'offense' ? 'defense' : 'offense';
  const installed = fittingCalls(menuOptions(model, menu, ourSide), counts[ourSide], situation);
  const ours = installed.length > 0 ? installed : standIns(model, ourSide);
  if (ours.length === 0) return null;
  const shares = counts[theirSide].groupShares(situation);
  const game = table.game(theirSide, ours, theirs.options, theirs.alpha, shares);
  return {
    situation,
    theirSide,
    theirs,
    ours,
    installed: installed.length > 0,
    payoffs: game.payoffs,
    mix: callMix(game, settings),
  };
}

/** What the field does most on a side. */
function standIns(model: AnswerModel, side: MenuCall['side']): CallOption[] {
  const of = side === 'defense' ? model.answers : model.calls;
  const counts = playsByLevel(model, of);
  return [...counts.keys()]
    .filter((place) => {
      const level = of.levels[place];
      return level !== undefined && (counts[place] ?? 0) > 0 && (!('detail' in level) || level.detail === 'as seen');
    })
    .sort((one, other) => (counts[other] ?? 0) - (counts[one] ?? 0))
    .slice(0, MOST_STAND_INS)
    .map((place): CallOption => {
      const level = of.levels[place];
      return {
        key: level?.key ?? '',
        label: level?.label ?? '',
        menu: null,
        levels: [{ level: place, weight: 1 }],
        byItsLike: false,
      };
    });
}
