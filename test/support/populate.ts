import { randomBytes } from 'node:crypto';
import { uuidv7 } from 'uuidv7';
import { SHARE } from './as-clan.js';
import { insert, type TestClan, type Writer } from './factories.js';

const DIGEST = Buffer.alloc(32, 7);

/** Ids for one full set of rows. Two clans may be given the same ones: every key has the clan in it. */
export interface Ids {
  readonly home: string;
  readonly away: string;
  readonly alias: string;
  readonly event: string;
  readonly homeEntrant: string;
  readonly awayEntrant: string;
  readonly match: string;
  readonly override: string;
  readonly contest: string;
  readonly game: string;
  readonly video: string;
  readonly chart: string;
  readonly menuCall: string;
  readonly ownCall: string;
  readonly coachingPoint: string;
  readonly report: string;
  readonly webhook: string;
  readonly delivery: string;
  readonly auditEntry: string;
}

export function newIds(): Ids {
  return {
    home: uuidv7(),
    away: uuidv7(),
    alias: uuidv7(),
    event: uuidv7(),
    homeEntrant: uuidv7(),
    awayEntrant: uuidv7(),
    match: uuidv7(),
    override: uuidv7(),
    contest: uuidv7(),
    game: uuidv7(),
    video: uuidv7(),
    chart: uuidv7(),
    menuCall: uuidv7(),
    ownCall: uuidv7(),
    coachingPoint: uuidv7(),
    report: uuidv7(),
    webhook: uuidv7(),
    delivery: uuidv7(),
    auditEntry: uuidv7(),
  };
}

/**
 * At least one row of the clan in every table. All names are fixed, so two clans that are populated have the same
 * handles and references.
 *
 * @param writer - the owner's pool, or a connection of the service with the clan entered
 * @returns the clan's own term
 */
export async function populate(
  writer: Writer,
  clan: TestClan,
  ids: Ids,
  by: 'owner' | 'service' = 'owner',
): Promise<number> {
  const own = { clan_id: clan.id, scope_id: clan.privateScopeId };
  const ofEvent = { ...own, event_id: ids.event };
  const ofGame = { ...own, game_id: ids.game };
  const { rows } = await writer.query<{ id: number }>(
    `insert into term (clan_id, kind, name, normalised_name, starter_id)
     select $1, s.kind, 'Our own look', 'our own look', s.id from term s where s.id = 1 returning id`,
    [clan.id],
  );
  const termId = rows[0]?.id ?? 0;
  await writer.query(
    `insert into term_synonym (clan_id, term_id, kind, normalised) select clan_id, id, kind, 'ool' from term where id = $1`,
    [termId],
  );
  const { rows: shares } = await writer.query<{ id: number }>(
    `insert into scope (clan_id, kind) values ($1, 'share') returning id`,
    [clan.id],
  );
  if (by === 'owner') await insert(writer, 'scope_reader', { scope_id: shares[0]?.id, clan_id: clan.id });
  await insert(writer, 'player', { ...own, id: ids.home, handle: 'HeronGate', normalised_handle: 'herongate' });
  await insert(writer, 'player', { ...own, id: ids.away, handle: 'MossLantern', normalised_handle: 'mosslantern' });
  // Readers are chosen through a function; a clan may name itself, which changes nothing.
  if (by === 'service') await writer.query(SHARE, ['player', ids.home, clan.id]);
  await insert(writer, 'player_alias', {
    ...{ ...own, id: ids.alias, player_id: ids.home },
    ...{ alias: 'Heron', normalised_alias: 'heron' },
  });
  await insert(writer, 'event', { ...own, id: ids.event, reference: 'harbour-cup', name: 'Harbour Cup' });
  await insert(writer, 'entrant', { ...ofEvent, id: ids.homeEntrant, player_id: ids.home });
  await insert(writer, 'entrant', { ...ofEvent, id: ids.awayEntrant, player_id: ids.away });
  // The feed tells of the match by itself.
  await insert(writer, 'match', {
    ...{ ...ofEvent, id: ids.match, round: 1, position: 1 },
    ...{ home_entrant_id: ids.homeEntrant, away_entrant_id: ids.awayEntrant, winner_entrant_id: ids.homeEntrant },
  });
  await insert(writer, 'match_up_override', {
    ...{ ...own, id: ids.override, player_id: ids.home, opponent_player_id: ids.away },
    win_probability: 0.6,
  });
  await insert(writer, 'contest', { ...own, id: ids.contest });
  await insert(writer, 'game', {
    ...{ ...ofEvent, id: ids.game, contest_id: ids.contest, match_id: ids.match, reference: 'harbour-cup-final' },
    ...{ home_player_id: ids.home, away_player_id: ids.away, importance: 'elimination' },
  });
  await insert(writer, 'game_video', { ...ofGame, id: ids.video, kind: 'neutral', url: 'https://film.example/1' });
  await insert(writer, 'chart', { ...ofGame, id: ids.chart, reference: 'main', plays: 1 });
  await insert(writer, 'chart_pack', {
    ...{ ...own, chart_id: ids.chart },
    ...{ format: 1, revision: 1, plays: 1, bytes: Buffer.from('pack') },
  });
  await insert(writer, 'reconciliation', { ...own, chart_id: ids.chart, last_play_number: 0, plays: '[]' });
  await insert(writer, 'play', {
    ...{ ...ofGame, chart_id: ids.chart, play_number: 1, order_in_game: 1 },
    ...{ offense_player_id: ids.home, defense_player_id: ids.away, play_type: 'scrimmage', down: 1, formation: termId },
  });
  await insert(writer, 'menu_call', { ...own, id: ids.menuCall, side: 'offense', name: 'Lantern' });
  await insert(writer, 'own_call', {
    ...{ ...ofGame, id: ids.ownCall, order_in_game: 1, side: 'offense', menu_call_id: ids.menuCall },
  });
  await insert(writer, 'coaching_point', {
    ...{ ...own, id: ids.coachingPoint, about: 'opponent', player_id: ids.away },
    ...{ text: 'Goes for it on fourth and short.', written_by: clan.keyId },
  });
  await insert(writer, 'coaching_point_version', {
    ...{ ...own, coaching_point_id: ids.coachingPoint, revision: 1, text: 'Goes for it.', written_by: clan.keyId },
    written_at: '2026-03-01T12:00:00Z',
  });
  await insert(writer, 'round_report', {
    ...{ ...own, id: ids.report, opponent_player_id: ids.away, settings: {}, seed: 1 },
    ...{ code_version: '1', inputs: {}, body: {} },
  });
  await insert(writer, 'share_link', {
    ...{ clan_id: clan.id, id: uuidv7(), report_id: ids.report, prefix: 'rbl_', made_by: clan.keyId },
    ...{ token_hash: randomBytes(32), expires_at: new Date(Date.now() + 3_600_000) },
  });
  await insert(writer, 'invitation', {
    ...{ clan_id: clan.id, id: uuidv7(), role: 'reader', prefix: 'rbi_', made_by: clan.keyId },
    ...{ token_hash: randomBytes(32), expires_at: new Date(Date.now() + 3_600_000) },
  });
  await insert(writer, 'sheet_mapping', {
    ...{ clan_id: clan.id, id: uuidv7(), name: 'season sheet' },
    fingerprint: DIGEST,
    body: { headers: ['Down'], columns: [], constants: {}, answers: [], us: null, order: 'column' },
  });
  await insert(writer, 'webhook', {
    ...{ clan_id: clan.id, id: ids.webhook, made_by: clan.keyId, url: 'https://bot.example/' },
    ...{ source_clan_id: clan.id, secret: randomBytes(32) },
  });
  await insert(writer, 'webhook_delivery', {
    ...{ clan_id: clan.id, id: ids.delivery, webhook_id: ids.webhook, kind: 'webhook.tested', body: '{}' },
  });
  await insert(writer, 'idempotency_key', { clan_id: clan.id, key: 'once', request_hash: DIGEST });
  await insert(writer, 'audit_entry', {
    ...{ clan_id: clan.id, id: ids.auditEntry, actor_key_id: clan.keyId },
    ...{ action: 'game.deleted', subject_kind: 'game', subject_id: ids.game },
  });
  return termId;
}
