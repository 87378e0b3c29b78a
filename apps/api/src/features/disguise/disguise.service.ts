import { Injectable } from '@nestjs/common';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import { disguise, type Disguise } from '#domain/tendencies/disguise/disguise.js';
import {
  disguiseWords,
  downWords,
  lateWords,
  shellCoverageWords,
  shellWords,
  visibilityWords,
} from '#domain/tendencies/words/defense-words.js';
import { restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { interval, orNull, value } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { evidencedShare, valueCount } from '../../common/value-count.js';
import { TendencyAnswersService, type AnswerHead, type Asking } from '../tendencies/tendency-answers.service.js';
import type { DisguiseQuery, DisguiseResponse } from './disguise.dto.js';

@Injectable()
export class DisguiseService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<DisguiseQuery>): Promise<TaggedAnswer> {
    const { voice } = asking.query;
    return this.answers.answer('disguise', asking, async ({ head, asked }): Promise<DisguiseResponse> => {
      const of = await asked();
      const found = disguise(of);
      const about = { label: 'shell and coverage', known: found.bothKnown };
      const restsOn = restsOnWords({ ...snapsAndGames(of.facts), about, gamesLeftOut: 0 });
      return disguiseResponse({ ...head, restsOn }, found, of.facts.plays, voice);
    });
  }
}

function disguiseResponse(
  head: AnswerHead & { readonly restsOn: string },
  found: Disguise,
  plays: PlayColumns,
  voice: Voice,
): DisguiseResponse {
  const { snaps, bothKnown, disguised, byShell, byDown, pairs, lateMovers, movedLate, visibility } = found;
  return {
    ...head,
    snaps,
    bothKnown,
    disguised: evidencedShare(disguiseWords(found, voice), disguised, plays),
    byShell: byShell.map(({ shell, disguised: share }) =>
      valueCount(shellWords(shell.label, share, voice), { value: shell, share }, plays),
    ),
    byDown: byDown.map(({ down, disguised: share }) => ({
      down,
      ...evidencedShare(downWords(down, share, voice), share, plays),
    })),
    pairs: pairs.map((pair) => ({
      words: shellCoverageWords(pair, bothKnown),
      shell: value(pair.shell),
      coverage: value(pair.coverage),
      count: pair.count,
      disguised: pair.disguised === -1 ? null : pair.disguised === 1,
      plays: playReferences(pair.evidence, plays),
    })),
    lateMovers: evidencedShare(lateWords('still moving at the snap', lateMovers), lateMovers, plays),
    movedLate: evidencedShare(lateWords('disguise moved late', movedLate), movedLate, plays),
    visibility: orNull(visibility, (warning) => ({
      words: visibilityWords(warning),
      ...warning,
      difference: interval(warning.difference),
    })),
  };
}
