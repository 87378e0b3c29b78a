import { Injectable } from '@nestjs/common';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { EarlierHalf } from './earlier-half.js';
import { profileJson, type ProfileHead } from './profile-json.js';
import { profileSheet } from './profile-sheet.js';
import type { ProfileQuery } from './profile.dto.js';

@Injectable()
export class ProfileService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<ProfileQuery>): Promise<TaggedAnswer> {
    const { side, confidence, situation, evidence, against, oneOffs, voice, cue } = asking.query;
    return this.answers.answer('profile', asking, async ({ head, scouting }): Promise<Buffer | string> => {
      const halved = against === 'earlier';
      const now = await scouting.side(side, confidence, situation, halved ? 'recent' : 'all');
      if (asking.type === 'text/csv') return profileSheet(head.handle, now.profile);
      const then = halved ? await scouting.side(side, confidence, situation, 'earlier') : null;
      const of: ProfileHead = {
        playerId: head.playerId,
        handle: head.handle,
        newestGame: head.newestGame,
        expectedPointsPlays: now.expectedPointsPlays,
      };
      const earlier = then === null ? null : new EarlierHalf(then.profile);
      const half =
        then === null
          ? {}
          : {
              earlier: {
                games: then.profile.games,
                snaps: then.profile.snaps,
                newestGame: then.charts[0]?.playedOn ?? null,
              },
            };
      return profileJson(
        now.profile,
        { ...of, ...half },
        {
          evidence: evidence === 'plays' ? now.plays.plays : null,
          earlier,
          voice: voice ?? null,
          cues: cue ?? [],
          onlySituation: situation !== undefined,
          oneOffs,
        },
      );
    });
  }
}
