import { choiceMask, termMask } from '../football/play-masks.js';
import { counted } from '../tendencies/words/count-words.js';
import { opponentHasBall, type MatchPlays } from './match-plays.js';
import type { CountedLine, PlayedApart } from './report-card-shape.js';

type Whose = CountedLine['whose'];
const WHOSE: readonly Whose[] = ['opponent', 'ours'];

/** Fouls, kicks and decisions of these games, which no call share says anything of. Lists only what happened. */
export function playedApart(match: MatchPlays): PlayedApart {
  return { fouls: fouls(match), kicks: kicks(match), decisions: decisions(match) };
}

function ballOf(match: MatchPlays, play: number): Whose {
  return opponentHasBall(match, play) ? 'opponent' : 'ours';
}

function fouls(match: MatchPlays): CountedLine[] {
  const { plays } = match.facts;
  const [byOffense, byDefense] = ['offense', 'defense'].map((side) => choiceMask(plays, 'foulSide', [side]));
  const isAccepted = choiceMask(plays, 'foulAnswer', ['accepted']);
  const yards = plays.number('foulYards').values;
  return WHOSE.flatMap((whose) => {
    const own = match.all.filter((play) => (ballOf(match, play) === whose ? byOffense : byDefense)?.[play] === 1);
    if (own.length === 0) return [];
    const accepted = own.filter((play) => isAccepted[play] === 1);
    const lost = accepted.reduce((sum, play) => sum + Math.max(0, yards[play] ?? 0), 0);
    const words = `${counted(own.length, 'foul')}, ${accepted.length} accepted, ${counted(lost, 'yard')}`;
    return [{ whose, count: own.length, words }];
  });
}

const KICKS = ['field goal', 'try kick', 'punt'] as const;

function kicks(match: MatchPlays): CountedLine[] {
  const { plays } = match.facts;
  const masks = KICKS.map((kick) => ({ kick, isKick: choiceMask(plays, 'playType', [kick]) }));
  const good = termMask(match.facts.plays, 'snapResult', match.vocabulary, ['snapResult.kick-good']);
  const result = match.facts.plays.code('snapResult').codes;
  return WHOSE.flatMap((whose) =>
    masks.flatMap(({ kick, isKick }) => {
      const own = match.all.filter((play) => isKick[play] === 1 && ballOf(match, play) === whose);
      if (own.length === 0) return [];
      const known = own.filter((play) => (result[play] ?? -1) >= 0);
      const made = known.filter((play) => good[play] === 1).length;
      const outcome = kick === 'punt' ? '' : `, good ${made} of ${known.length}`;
      return [{ whose, count: own.length, words: `${counted(own.length, kick)}${outcome}` }];
    }),
  );
}

function decisions(match: MatchPlays): CountedLine[] {
  const { facts } = match;
  const isScrimmage = choiceMask(facts.plays, 'playType', ['scrimmage']);
  const isTry = choiceMask(facts.plays, 'playType', ['two-point try']);
  const down = facts.plays.number('down').values;
  return WHOSE.flatMap((whose) => {
    const own = match.all.filter((play) => ballOf(match, play) === whose);
    const fourth = own.filter((play) => down[play] === 4);
    const went = fourth.filter((play) => isScrimmage[play] === 1);
    const judged = went.filter((play) => (facts.success[play] ?? -1) >= 0);
    const made = judged.filter((play) => facts.success[play] === 1).length;
    const tries = own.filter((play) => isTry[play] === 1).length;
    return [
      ...(fourth.length === 0
        ? []
        : [
            {
              whose,
              count: fourth.length,
              words: `fourth downs: went for it ${went.length} of ${fourth.length}${went.length === 0 ? '' : `, made ${made} of ${judged.length}`}`,
            },
          ]),
      ...(tries === 0 ? [] : [{ whose, count: tries, words: counted(tries, 'two-point attempt') }]),
    ];
  });
}
