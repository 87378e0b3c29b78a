import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import type { ScoutingWish } from './tendencies.service.js';
import type { FilterQuery } from './tendency-query.dto.js';

/** Turns a query as it came in into a wish that names players as persons, and events as all of their records. */
@Injectable()
export class TendencyWishesService {
  constructor(
    private readonly players: PlayersService,
    private readonly events: EventsService,
  ) {}

  async of(db: ClanDatabase, query: FilterQuery): Promise<ScoutingWish> {
    const { eventId, opponentId, from, to, rulesVersion, importance, cue, halfLifeDays } = query;
    const opponent = opponentId === undefined ? undefined : (await this.players.require(db, opponentId)).identity;
    return {
      filter: {
        ...(eventId === undefined ? {} : { eventIds: await this.events.recordsOf(db, eventId) }),
        ...(opponent === undefined ? {} : { opponent }),
        ...(from === undefined ? {} : { from }),
        ...(to === undefined ? {} : { to }),
        ...(rulesVersion === undefined ? {} : { rulesVersion }),
        ...(importance === undefined ? {} : { importance }),
        ...(cue === undefined ? {} : { cues: cue }),
      },
      halfLifeDays: halfLifeDays ?? null,
    };
  }
}
