import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { headerFingerprint, type SheetMapping } from '#domain/charting/sheet-mapping.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { SheetMappingResponse } from './sheet-mappings.dto.js';

/** What is kept of a mapping beside its name. */
export interface SheetMappingBody extends SheetMapping {
  readonly headers: readonly string[];
}

interface StoredMapping {
  readonly id: string;
  readonly name: string;
  readonly body: Omit<SheetMappingResponse, 'id' | 'name'>;
}

const COLUMNS = 'id, name, body';

@Injectable()
export class SheetMappingsRepository {
  async list(db: ClanDatabase, after: string, limit: number): Promise<SheetMappingResponse[]> {
    const rows = await db.query<StoredMapping>(
      `select ${COLUMNS} from sheet_mapping where clan_id = $1 and name > $2 order by name limit $3`,
      [db.clanId, after, limit],
    );
    return rows.map(whole);
  }

  async find(db: ClanDatabase, id: string): Promise<SheetMappingResponse | null> {
    const rows = await db.query<StoredMapping>(`select ${COLUMNS} from sheet_mapping where clan_id = $1 and id = $2`, [
      db.clanId,
      id,
    ]);
    return rows.map(whole)[0] ?? null;
  }

  async lock(db: ClanDatabase, id: string): Promise<SheetMappingResponse | null> {
    const rows = await db.query<StoredMapping>(
      `select ${COLUMNS} from sheet_mapping where clan_id = $1 and id = $2 for update`,
      [db.clanId, id],
    );
    return rows.map(whole)[0] ?? null;
  }

  /** The mapping for a sheet with these headers that was changed last. */
  async forHeaders(db: ClanDatabase, headers: readonly string[]): Promise<SheetMappingResponse | null> {
    const rows = await db.query<StoredMapping>(
      `select ${COLUMNS} from sheet_mapping where clan_id = $1 and fingerprint = $2
        order by changed_at desc, id desc limit 1`,
      [db.clanId, digest(headers)],
    );
    return rows.map(whole)[0] ?? null;
  }

  async insert(db: ClanDatabase, id: string, name: string, body: SheetMappingBody): Promise<void> {
    await db.query(`insert into sheet_mapping (clan_id, id, name, fingerprint, body) values ($1, $2, $3, $4, $5)`, [
      db.clanId,
      id,
      name,
      digest(body.headers),
      JSON.stringify(body),
    ]);
  }

  async update(db: ClanDatabase, id: string, name: string, body: SheetMappingBody): Promise<void> {
    await db.query(
      `update sheet_mapping set name = $3, fingerprint = $4, body = $5, changed_at = now()
        where clan_id = $1 and id = $2`,
      [db.clanId, id, name, digest(body.headers), JSON.stringify(body)],
    );
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`delete from sheet_mapping where clan_id = $1 and id = $2`, [db.clanId, id]);
  }
}

/** In a fixed order of its members: jsonb has none, and the entity tag is of the text. */
function whole({ id, name, body }: StoredMapping): SheetMappingResponse {
  const { headers, columns, constants, answers, us, order } = body;
  return { id, name, headers, columns, constants, answers, us, order };
}

function digest(headers: readonly string[]): Buffer {
  return createHash('sha256').update(headerFingerprint(headers)).digest();
}
