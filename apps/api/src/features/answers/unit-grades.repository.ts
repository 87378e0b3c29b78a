import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** How an event graded the units of one entrant's roster. */
export interface UnitGrades {
  readonly eventId: string;
  /** Identity of the player, across clans where records are linked. */
  readonly player: string;
  readonly grades: Readonly<Record<string, unknown>>;
  /** From the least to the best. */
  readonly scale: readonly string[];
}

@Injectable()
export class UnitGradesRepository {
  /** Of every entrant in view whose event has a scale and graded something. */
  all(db: ClanDatabase): Promise<UnitGrades[]> {
    return db.query<UnitGrades & Record<string, unknown>>(
      `select e.id as "eventId", coalesce(p.linked_player_id, p.id) as player, n.unit_grades as grades,
              e.grade_scale as scale
         from entrant n
         join event e on e.clan_id = n.clan_id and e.id = n.event_id
         join player p on p.clan_id = n.clan_id and p.id = n.player_id
        where e.grade_scale is not null and n.unit_grades <> '{}'::jsonb
        order by e.id, n.id`,
      [],
    );
  }
}
