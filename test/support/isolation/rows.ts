import { randomBytes } from 'node:crypto';
import { uuidv7 } from 'uuidv7';
import { hashKey } from '#api/database/hash-key.js';
import { aClan, aGame, aKey, aMember, anEvent, aPlayer, insert, type TestClan } from '../factories.js';
import type { TestApi } from '../test-api.js';

/** Parameters of an address, by name. */
export type Parameters = Readonly<Record<string, string>>;

/** Makes a row of a clan and tells the parameters of its address; a new one each time. */
type Maker = (rows: Rows) => Promise<Parameters>;

let counter = 0;
function next(word: string): string {
  counter += 1;
  return `${word}-${counter}`;
}

/**
 * How the row behind an address is made, by the last parameter of the address. A new kind of resource needs a line here
 * and then has its `GET`, `PATCH` and `DELETE` in the matrix.
 */
const MAKERS: Readonly<Record<string, Maker>> = {
  playerId: async (rows) => ({ playerId: await aPlayer(rows.sql, rows.clan) }),
  eventId: async (rows) => ({ eventId: await anEvent(rows.sql, rows.clan) }),
  entrantId: async (rows) => {
    const { eventId = '' } = await rows.make('eventId');
    const entrantId = uuidv7();
    const own = { clan_id: rows.clan.id, scope_id: rows.clan.privateScopeId, id: entrantId };
    await insert(rows.sql, 'entrant', { ...own, event_id: eventId, player_id: await aPlayer(rows.sql, rows.clan) });
    return { eventId, entrantId };
  },
  matchId: async (rows) => {
    const { eventId = '' } = await rows.make('eventId');
    const matchId = uuidv7();
    const own = { clan_id: rows.clan.id, scope_id: rows.clan.privateScopeId, id: matchId };
    await insert(rows.sql, 'match', { ...own, event_id: eventId, round: 1, position: 1 });
    return { eventId, matchId };
  },
  gameId: async (rows) => ({ gameId: (await aGame(rows.sql, rows.clan)).id }),
  chartId: async (rows) => {
    const { gameId = '' } = await rows.make('gameId');
    const chartId = await rows.posted('/v1/charts', { gameId, reference: next('chart') });
    await rows.posted(`/v1/charts/${chartId}/plays`, A_PLAY);
    return { chartId, gameId };
  },
  playNumber: async (rows) => ({ ...(await rows.make('chartId')), playNumber: '1' }),
  menuCallId: async (rows) => ({
    menuCallId: await rows.posted('/v1/menu-calls', { side: 'offense', name: next('Lantern') }),
  }),
  ownCallId: async (rows) => {
    const { gameId } = await rows.make('gameId');
    return { ownCallId: await rows.posted('/v1/own-calls', { gameId, orderInGame: 1, side: 'offense' }) };
  },
  coachingPointId: async (rows) => {
    const { playerId } = await rows.make('playerId');
    const point = { about: 'opponent', playerId, text: 'Goes for it on fourth and short.' };
    return { coachingPointId: await rows.posted('/v1/coaching-points', point) };
  },
  mappingId: async (rows) => ({ mappingId: await rows.posted('/v1/sheet-mappings', aMapping()) }),
  overrideId: async (rows) => {
    const [playerId, opponentId] = [await rows.id('playerId'), await rows.id('playerId')];
    const input = { playerId, opponentId, winProbability: 0.4, reason: 'a bad wrist' };
    return { overrideId: await rows.posted('/v1/match-up-overrides', input) };
  },
  termId: async (rows) => ({
    termId: await rows.posted('/v1/terms', { kind: 'formation', name: next('Lantern') }),
  }),
  reportId: async (rows) => ({ reportId: await rows.posted('/v1/round-reports', await aReport(rows)) }),
  linkId: async (rows) => {
    const { reportId = '' } = await rows.make('reportId');
    return { reportId, linkId: await rows.posted(`/v1/round-reports/${reportId}/share-links`, {}) };
  },
  invitationId: async (rows) => ({ invitationId: await rows.posted('/v1/invitations', { role: 'reader' }) }),
  keyId: async (rows) => ({ keyId: await rows.posted('/v1/keys', { name: next('key'), scopes: ['read'] }) }),
  webhookId: async (rows) => {
    // One clan keeps only so many.
    await rows.sql.query('delete from webhook where clan_id = $1', [rows.clan.id]);
    // Turned off, so that nothing is sent.
    return { webhookId: await rows.posted('/v1/webhooks', { url: 'https://bot.example/', enabled: false }) };
  },
  deliveryId: async (rows) => {
    const { webhookId = '' } = await rows.make('webhookId');
    return { webhookId, deliveryId: await rows.posted(`/v1/webhooks/${webhookId}/deliveries`, {}) };
  },
  memberId: async (rows) => ({ memberId: (await aMember(rows.sql, rows.clan.id, 'reader')).memberId }),
};

export const A_PLAY = { offense: 'home', playType: 'scrimmage', down: 1, distance: 10, callFamily: 'run' };

export function aMapping(): object {
  return {
    name: next('sheet'),
    headers: ['Ball'],
    columns: [{ header: 'Ball', to: 'offense' }],
    constants: { playType: 'scrimmage', game: 'pond-1' },
  };
}

/** What asks for a report on somebody who can be scouted. */
export async function aReport(rows: Rows): Promise<object> {
  const { chartId = '' } = await rows.make('chartId');
  const { eventId = '' } = await rows.make('eventId');
  const { rows: found } = await rows.sql.query<{ home: string; away: string }>(
    `select g.home_player_id as home, g.away_player_id as away from game g
       join chart c on c.clan_id = g.clan_id and c.game_id = g.id where c.id = $1`,
    [chartId],
  );
  const [players] = found;
  // Tables that grew within seconds have no statistics yet, and a join of five of them would be planned for no rows.
  await rows.sql.query('analyze');
  for (const player of [players?.home, players?.away]) {
    const own = { clan_id: rows.clan.id, scope_id: rows.clan.privateScopeId, id: uuidv7() };
    await insert(rows.sql, 'entrant', { ...own, event_id: eventId, player_id: player });
  }
  return { eventId, playerId: players?.home, opponentId: players?.away };
}

/** Rows of one clan, made on demand. */
export class Rows {
  constructor(
    private readonly api: TestApi,
    readonly clan: TestClan,
  ) {}

  get sql(): TestApi['database']['owner'] {
    return this.api.database.owner;
  }

  make(parameter: string): Promise<Parameters> {
    const maker = MAKERS[parameter];
    if (maker === undefined) throw new Error(`test/support/isolation/rows.ts does not know how to make a ${parameter}`);
    return maker(this);
  }

  /** The value of one parameter. */
  async id(parameter: string): Promise<string> {
    return (await this.make(parameter))[parameter] ?? '';
  }

  /** Makes one over HTTP as the clan's first key does; tells its id. */
  async posted(path: string, body: object): Promise<string> {
    const response = await this.api.as(this.clan).post(path).send(body);
    expect(response).toMatchObject({ status: 201 });
    const { id, playNumber }: { id?: string | number; playNumber?: number } = response.body;
    return String(id ?? playNumber);
  }

  /** Something of a third clan that everybody may read. */
  async published(parameter: 'eventId' | 'playerId'): Promise<Parameters> {
    const clan = await aClan(this.sql);
    const others = new Rows(this.api, clan);
    const { eventId = '' } = await others.make('entrantId');
    const visibility = this.api.as(clan).put(`/v1/events/${eventId}/visibility`).set('If-Match', '*');
    await visibility.send({ visibility: 'public' }).expect(200);
    if (parameter === 'eventId') return { eventId };
    const { rows } = await this.sql.query<{ id: string }>('select player_id as id from entrant where event_id = $1', [
      eventId,
    ]);
    return { playerId: rows[0]?.id ?? '' };
  }

  /** The name of a player of that game. */
  async handleIn({ gameId }: Parameters): Promise<string> {
    const { rows } = await this.sql.query<{ handle: string }>(
      `select p.handle from game g join player p on p.clan_id = g.clan_id and p.id = g.home_player_id where g.id = $1`,
      [gameId],
    );
    return rows[0]?.handle ?? 'nobody';
  }

  /** An event with two entrants and no matches yet. */
  async twoEntrants(): Promise<Parameters> {
    const { eventId = '' } = await this.make('eventId');
    const own = { clan_id: this.clan.id, scope_id: this.clan.privateScopeId, event_id: eventId };
    const [player, other] = [await aPlayer(this.sql, this.clan), await aPlayer(this.sql, this.clan)];
    for (const id of [player, other]) await insert(this.sql, 'entrant', { ...own, id: uuidv7(), player_id: id });
    return { eventId, player };
  }

  async twoPlayers(): Promise<Parameters> {
    return { playerId: await this.id('playerId'), opponentId: await this.id('playerId') };
  }

  /** The same with its one match. */
  async finalOfTwo(): Promise<Parameters> {
    const at = await this.twoEntrants();
    await this.api
      .as(this.clan)
      .post(`/v1/events/${at['eventId'] ?? ''}/bracket`)
      .send({ structure: 'single elimination' })
      .expect(201);
    const { rows } = await this.sql.query<{ id: string }>('select id from match where event_id = $1', [at['eventId']]);
    return { ...at, matchId: rows[0]?.id ?? '' };
  }

  /** A game with two charts of the same play. */
  async twoCharts(): Promise<Parameters> {
    const { gameId = '', chartId: first = '' } = await this.make('chartId');
    const second = await this.posted('/v1/charts', { gameId, reference: next('chart') });
    await this.posted(`/v1/charts/${second}/plays`, A_PLAY);
    return { gameId, first, second };
  }

  async mergedTerm(): Promise<Parameters> {
    const [termId, intoId] = [await this.id('termId'), await this.id('termId')];
    await this.api
      .as(this.clan)
      .post(`/v1/terms/${termId}/merger`)
      .set('If-Match', '*')
      .send({ intoId: Number(intoId) })
      .expect(200);
    return { termId };
  }

  /** A session of somebody in the clan. */
  async sessionOfMember(): Promise<Parameters> {
    return this.session((await aMember(this.sql, this.clan.id, 'reader')).personId);
  }

  /** The end of a link into a third clan. */
  async invitation(): Promise<string> {
    const clan = await aClan(this.sql);
    const { keyId } = await aKey(this.sql, clan.id);
    const invitation = `rbi_${randomBytes(32).toString('base64url')}`;
    await insert(this.sql, 'invitation', {
      ...{ clan_id: clan.id, id: uuidv7(), role: 'reader', prefix: 'rbi_', made_by: keyId },
      ...{ token_hash: hashKey(invitation), expires_at: '2999-01-01T00:00:00Z' },
    });
    return invitation;
  }

  /** A further session of a person. */
  async session(personId: string | null): Promise<Parameters> {
    const sessionId = uuidv7();
    if (personId !== null) {
      await insert(this.sql, 'app.person_session', {
        ...{ id: sessionId, person_id: personId },
        ...{ token_hash: randomBytes(32), expires_at: '2999-01-01T00:00:00Z' },
      });
    }
    return { sessionId };
  }
}
