import { uuidv7 } from 'uuidv7';
import type { Right } from '#api/common/rights.js';
import { CHEAP_PASSPHRASES, PASSPHRASE } from '../person.js';
import type { Agent, Caller } from './callers.js';
import { A_PLAY, aMapping, aReport, type Parameters, type Rows } from './rows.js';

/** Cheap, for whoever starts the service that the table is held against. */
export const MATRIX_SETTINGS = { passphrase: CHEAP_PASSPHRASES };

/** Ids of nothing at all, in the shape of ids. What they are answered with is what another clan's ids must be. */
export function unknownParameters(names: readonly string[]): Parameters {
  return Object.fromEntries(names.map((name) => [name, UNKNOWN[name] ?? uuidv7()]));
}
const UNKNOWN: Readonly<Record<string, string>> = { termId: '2000000000', playNumber: '1' };

/** What an operation is expected to do. Whatever is not said is as `usual` says. */
export interface Expectation {
  /** The right that lets in; `open` lets in everybody, `person` whoever has signed in. */
  readonly needs: Right | 'open' | 'person';
  /** Status for whoever is let in. */
  readonly success: number;
  /** Status for the owner of another clan who names a row of this one, or null where nothing can be named. */
  readonly foreign: number | null;
  /** Parameters of the address: of a row of the clan, a new one each time. */
  readonly at: (rows: Rows, agent: Agent) => Promise<Parameters>;
  /** The row that the owner of another clan names: one of the clan that only the clan reads. */
  readonly foreignAt: (rows: Rows) => Promise<Parameters>;
  /** What is sent; it may name rows by the parameters that were made for it. */
  readonly body: ((rows: Rows, at: Parameters) => Promise<object | string>) | null;
  readonly type: string;
  readonly query: (at: Parameters) => string;
  /** Who is answered otherwise although the right is there: by status and code. */
  readonly except: Partial<Readonly<Record<Caller, readonly [number, string]>>>;
  /** Table whose rows of the clan a list shows, all of them; null for what is no list of a table. */
  readonly table: string | null;
}

/** By method and kind of address. An operation that does not behave like this has a line in `TABLE`. */
export function usual(method: string, parameters: readonly string[], path: string): Expectation | null {
  const last = parameters.at(-1);
  const at = (rows: Rows): Promise<Parameters> => (last === undefined ? Promise.resolve({}) : rows.make(last));
  const common = {
    foreign: last === undefined ? null : 404,
    at,
    foreignAt: at,
    query: () => '',
    except: {},
    table: null,
  };
  switch (method) {
    case 'get':
      return { ...common, needs: 'read', success: 200, body: null, type: 'application/json', table: tableOf(path) };
    case 'patch': {
      const type = 'application/merge-patch+json';
      return { ...common, needs: 'write', success: 200, body: () => Promise.resolve({}), type };
    }
    case 'delete':
      return { ...common, needs: 'write', success: 204, body: null, type: 'application/json' };
    default:
      // What a creation takes nobody can guess.
      return null;
  }
}

/** A list is named after what is in it. */
function tableOf(path: string): string | null {
  return LISTS[path] ?? null;
}
const LISTS: Readonly<Record<string, string>> = {
  '/v1/charts': 'chart where',
  '/v1/coaching-points': 'coaching_point where',
  '/v1/events': 'event where',
  '/v1/games': 'game where',
  '/v1/invitations': 'invitation where',
  '/v1/members': 'api_key where role is not null and revoked_at is null and',
  '/v1/match-up-overrides': 'match_up_override where',
  '/v1/menu-calls': 'menu_call where',
  '/v1/own-calls': 'own_call where',
  '/v1/players': 'player where',
  '/v1/round-reports': 'round_report where',
  '/v1/sheet-mappings': 'sheet_mapping where',
  '/v1/webhooks': 'webhook where',
};

const made = (body: (rows: Rows, at: Parameters) => Promise<object | string>): Partial<Expectation> => ({
  needs: 'write',
  success: 201,
  body,
  type: 'application/json',
});
const file = (text: string, type: string): Partial<Expectation> => ({
  needs: 'write',
  body: () => Promise.resolve(text),
  type,
});
const open = (success: number, body: object | null = null): Partial<Expectation> => ({
  needs: 'open',
  success,
  body: body === null ? null : () => Promise.resolve(body),
  type: 'application/json',
});
const person = (success: number, rest: Partial<Expectation> = {}): Partial<Expectation> => ({
  ...{ needs: 'person', success, body: null, type: 'application/json' },
  ...rest,
});
const PROFILES: Partial<Expectation> = { needs: 'profiles' };
/** Asked by the player, who stands in the query. */
const ABOUT_A_PLAYER: Partial<Expectation> = {
  ...{ ...PROFILES, foreign: 404 },
  ...{ at: (rows) => rows.make('playerId'), foreignAt: (rows) => rows.make('playerId') },
  query: ({ playerId = uuidv7() }) => `?playerId=${playerId}`,
};
/** A key is for its maker and for owners; nobody else is told that it is there. */
const NOT_THEIRS = { analyst: [404, 'resource.not_found'], 'key for write': [404, 'resource.not_found'] } as const;
const MANAGE: Partial<Expectation> = { needs: 'manage' };
const CHOOSES: Partial<Expectation> = {
  ...{ ...MANAGE, success: 200, type: 'application/json' },
  body: () => Promise.resolve({ visibility: 'public' }),
};
/** Names rows in its body, of which another clan's are as unknown as any that are not there. */
const UNKNOWN_ROW = { foreign: 422 } as const;
const NO_LINK = `rbl_${'A'.repeat(43)}`;
let counter = 0;
const next = (word: string): string => {
  counter += 1;
  return `${word} ${counter}`;
};
const slug = (word: string): string => next(word).replace(' ', '-');

const inPlace = (rows: Rows, parameter: string, at: Parameters): Promise<string> =>
  at[parameter] === undefined ? rows.id(parameter) : Promise.resolve(at[parameter]);

/**
 * The operations that are not as usual. To add one: name it by method and address as the description does, and say what
 * differs; a right that is not the usual one, the body of a creation, a success that is not the usual status.
 */
export const TABLE: Readonly<Record<string, Partial<Expectation>>> = {
  'get /health/live': open(200),
  'get /health/ready': open(200),

  'post /v1/sign-up': open(403, { signInName: 'marlow', passphrase: PASSPHRASE, name: 'Marlow', clanName: 'Ours' }),
  'post /v1/session': open(401, { signInName: 'nobody', passphrase: PASSPHRASE }),
  'post /v1/invitation-preview': open(404, { invitation: `rbi_${'A'.repeat(43)}` }),
  'post /v1/people': open(404, {
    ...{ signInName: 'marlow', passphrase: PASSPHRASE, name: 'Marlow', invitation: `rbi_${'A'.repeat(43)}` },
  }),
  'get /v1/session': person(200),
  'delete /v1/session': person(204),
  'put /v1/session/clan': person(200, {
    body: (rows, at) => Promise.resolve({ clanId: at['clanId'] ?? rows.clan.id }),
    ...{ foreign: 404, foreignAt: (rows) => Promise.resolve({ clanId: rows.clan.id }) },
  }),
  'get /v1/sessions': person(200),
  'delete /v1/sessions/{sessionId}': person(204, {
    ...{ at: (rows, { personId }) => rows.session(personId), foreignAt: (rows) => rows.sessionOfMember() },
  }),
  // The people of the matrix sign in without a passphrase, so none is right.
  'put /v1/passphrase': person(401, {
    body: () => Promise.resolve({ passphrase: PASSPHRASE, newPassphrase: PASSPHRASE }),
  }),
  'post /v1/person/erasure': person(204, { body: () => Promise.resolve({}) }),
  'post /v1/memberships': person(201, {
    body: async (rows) => ({ invitation: await rows.invitation(), name: 'Marlow' }),
  }),
  'delete /v1/memberships/{clanId}': person(204, {
    ...{ at: (rows) => Promise.resolve({ clanId: rows.clan.id }) },
    ...{ foreignAt: (rows) => Promise.resolve({ clanId: rows.clan.id }) },
  }),

  'get /v1/invitations': MANAGE,
  'get /v1/invitations/{invitationId}': MANAGE,
  'post /v1/invitations': { ...made(() => Promise.resolve({ role: 'reader' })), ...MANAGE },
  'delete /v1/invitations/{invitationId}': MANAGE,
  // An analyst sees the own ones, of which the matrix makes none.
  'get /v1/keys': { needs: 'write', table: null },
  'get /v1/keys/{keyId}': { needs: 'write', except: NOT_THEIRS },
  'post /v1/keys': made(() => Promise.resolve({ name: next('key'), scopes: ['write'] })),
  'delete /v1/keys/{keyId}': { except: NOT_THEIRS },
  'patch /v1/members/{memberId}': { ...MANAGE, body: () => Promise.resolve({ role: 'analyst' }) },
  'delete /v1/members/{memberId}': MANAGE,
  'put /v1/clan/owner': {
    except: { 'key for manage': [403, 'access.person_needed'] },
    ...{
      ...MANAGE,
      success: 200,
      body: async (rows: Rows, at: Parameters) => ({ memberId: await inPlace(rows, 'memberId', at) }),
    },
    ...{ type: 'application/json', foreign: 404, foreignAt: (rows: Rows) => rows.make('memberId') },
  },

  'get /v1/players': PROFILES,
  'get /v1/players/{playerId}': PROFILES,
  'post /v1/players': made(() => Promise.resolve({ handle: next('Mossback') })),
  'post /v1/players/{playerId}/adoption': {
    ...made(() => Promise.resolve({})),
    ...{ at: (rows: Rows) => rows.published('playerId'), body: null },
  },
  'get /v1/players/{playerId}/adjustments': PROFILES,
  'get /v1/players/{playerId}/decisions': PROFILES,
  'get /v1/players/{playerId}/disguise': PROFILES,
  'get /v1/players/{playerId}/drift': PROFILES,
  'get /v1/players/{playerId}/manual-defender': PROFILES,
  'post /v1/players/{playerId}/next-call': {
    ...{ ...PROFILES, success: 200, foreign: 404, type: 'application/json' },
    // There must be something that such a forecast can rest on.
    at: async (rows) => ({ ...(await rows.make('chartId')), ...(await rows.make('playerId')) }),
    foreignAt: (rows) => rows.make('playerId'),
    body: () => Promise.resolve({ snap: { down: 3, distance: 7 } }),
  },
  'get /v1/players/{playerId}/point-of-attack': PROFILES,
  'get /v1/players/{playerId}/profile': PROFILES,
  'get /v1/players/{playerId}/sequences': PROFILES,
  'get /v1/players/{playerId}/tells': PROFILES,

  'post /v1/events': made(() => Promise.resolve({ reference: slug('cup'), name: 'Pond Cup' })),
  'post /v1/events/{eventId}/adoption': {
    ...made(() => Promise.resolve({})),
    ...{ at: (rows: Rows) => rows.published('eventId'), body: null },
  },
  'post /v1/events/{eventId}/entrants': made(async (rows) => ({ playerId: await rows.id('playerId') })),
  'post /v1/events/{eventId}/matches': made(() => Promise.resolve({ round: 1, position: 1 })),
  'put /v1/events/{eventId}/visibility': CHOOSES,
  'put /v1/games/{gameId}/visibility': CHOOSES,
  'put /v1/players/{playerId}/visibility': CHOOSES,

  'post /v1/events/{eventId}/bracket': {
    ...made(() => Promise.resolve({ structure: 'single elimination' })),
    at: (rows: Rows) => rows.twoEntrants(),
  },
  'put /v1/events/{eventId}/matches/{matchId}/result': {
    ...{ ...made(() => Promise.resolve({ winner: 'home' })), success: 200 },
    ...{ at: (rows: Rows) => rows.finalOfTwo(), foreignAt: (rows: Rows) => rows.finalOfTwo() },
  },
  'get /v1/events/{eventId}/meeting-odds': {
    ...{ ...PROFILES, at: (rows) => rows.finalOfTwo(), foreignAt: (rows) => rows.finalOfTwo() },
    query: ({ player = uuidv7() }) => `?player=${player}`,
  },
  'get /v1/events/{eventId}/charting-queue': {
    ...{ ...PROFILES, at: (rows) => rows.finalOfTwo(), foreignAt: (rows) => rows.finalOfTwo() },
    query: ({ player = uuidv7() }) => `?player=${player}`,
  },
  'get /v1/events/{eventId}/next-opponents': {
    ...{ ...PROFILES, at: (rows) => rows.finalOfTwo(), foreignAt: (rows) => rows.finalOfTwo() },
    query: ({ player = uuidv7() }) => `?player=${player}`,
  },
  'get /v1/call-sheets': {
    ...{ ...PROFILES, foreign: 404, at: (rows) => rows.finalOfTwo(), foreignAt: (rows) => rows.finalOfTwo() },
    query: ({ eventId = uuidv7(), player = uuidv7() }) => `?eventId=${eventId}&playerId=${player}`,
  },
  'get /v1/players/{playerId}/fourth-down': {
    ...PROFILES,
    at: async (rows) => ({ ...(await rows.make('entrantId')), ...(await rows.twoPlayers()) }),
    foreignAt: async (rows) => ({ ...(await rows.make('entrantId')), ...(await rows.twoPlayers()) }),
    query: ({ eventId = uuidv7(), opponentId = uuidv7() }) =>
      `?eventId=${eventId}&opponentId=${opponentId}&distance=2&yardsToGoal=38`,
  },
  'get /v1/players/{playerId}/late-game': {
    ...PROFILES,
    at: async (rows) => ({ ...(await rows.make('entrantId')), ...(await rows.twoPlayers()) }),
    foreignAt: async (rows) => ({ ...(await rows.make('entrantId')), ...(await rows.twoPlayers()) }),
    query: ({ eventId = uuidv7(), opponentId = uuidv7() }) =>
      `?eventId=${eventId}&opponentId=${opponentId}&clockSeconds=110&scoreDifference=-2`,
  },
  'get /v1/ratings': PROFILES,
  'get /v1/trends': PROFILES,
  'get /v1/call-studies': { ...PROFILES, query: () => '?concept=mesh' },
  'get /v1/answers': ABOUT_A_PLAYER,
  'get /v1/call-mix': ABOUT_A_PLAYER,
  'post /v1/match-up-overrides': {
    ...made(async (rows, at) => ({
      ...{ playerId: await inPlace(rows, 'playerId', at), opponentId: await rows.id('playerId') },
      ...{ winProbability: 0.4, reason: 'a bad wrist' },
    })),
    ...{ ...UNKNOWN_ROW, foreignAt: (rows: Rows) => rows.make('playerId') },
  },

  'post /v1/games': {
    ...made(async (rows, at) => ({
      ...{ reference: slug('contest'), importance: 'group' },
      ...{ homePlayerId: await inPlace(rows, 'playerId', at), awayPlayerId: await rows.id('playerId') },
    })),
    ...{ ...UNKNOWN_ROW, foreignAt: (rows: Rows) => rows.make('playerId') },
  },
  'get /v1/games/{gameId}/agreement': {
    at: async (rows) => ({ ...(await rows.twoCharts()) }),
    query: ({ first = uuidv7(), second = uuidv7() }) => `?first=${first}&second=${second}`,
  },
  'get /v1/games/{gameId}/reconciliation': { at: (rows) => rows.twoCharts() },
  'post /v1/games/{gameId}/charts': {
    ...made(async (rows, at) => `order,offense,playType\n1,${await rows.handleIn(at)},scrimmage\n`),
    ...{ success: 200, type: 'text/csv', query: () => '?mode=check' },
  },
  'post /v1/imports': { ...file('{"record":"player","handle":"Brass Heron"}\n', 'application/x-ndjson'), success: 201 },
  'post /v1/charts': {
    ...made(async (rows, at) => ({ gameId: await inPlace(rows, 'gameId', at), reference: slug('chart') })),
    ...{ ...UNKNOWN_ROW, foreignAt: (rows: Rows) => rows.make('gameId') },
  },
  'post /v1/charts/{chartId}/plays': made(() => Promise.resolve(A_PLAY)),

  'get /v1/terms': { ...PROFILES, query: () => '?own=true' },
  'get /v1/terms/{termId}': PROFILES,
  'post /v1/terms': made(() => Promise.resolve({ kind: 'formation', name: next('Slate') })),
  'post /v1/terms/{termId}/merger': {
    ...made(async (rows) => ({ intoId: Number(await rows.id('termId')) })),
    success: 200,
  },
  'delete /v1/terms/{termId}/merger': { success: 200, at: (rows) => rows.mergedTerm() },

  'post /v1/menu-calls': made(() => Promise.resolve({ side: 'offense', name: next('Heron') })),
  'post /v1/own-calls': {
    ...made(async (rows, at) => ({ gameId: await inPlace(rows, 'gameId', at), orderInGame: 1, side: 'offense' })),
    ...{ ...UNKNOWN_ROW, foreignAt: (rows: Rows) => rows.make('gameId') },
  },
  'post /v1/coaching-points': {
    ...made(async (rows, at) => ({
      ...{ about: 'opponent', playerId: await inPlace(rows, 'playerId', at), text: 'Goes for it.' },
    })),
    ...{ ...UNKNOWN_ROW, foreignAt: (rows: Rows) => rows.make('playerId') },
  },
  'post /v1/sheet-mappings': made(() => Promise.resolve(aMapping())),
  'post /v1/sheet-mappings/suggestions': {
    ...made(() => Promise.resolve({ headers: ['Ball'], rows: [['O']] })),
    success: 200,
  },

  'get /v1/webhooks': MANAGE,
  'get /v1/webhooks/{webhookId}': MANAGE,
  'post /v1/webhooks': {
    ...made(async (rows, at) => {
      await rows.sql.query('delete from webhook where clan_id = $1', [rows.clan.id]);
      return { url: 'https://bot.example/', eventId: await inPlace(rows, 'eventId', at), enabled: false };
    }),
    ...{ ...MANAGE, foreign: 404, foreignAt: (rows: Rows) => rows.make('eventId') },
  },
  'patch /v1/webhooks/{webhookId}': { ...MANAGE, body: () => Promise.resolve({ enabled: false }) },
  'delete /v1/webhooks/{webhookId}': MANAGE,
  'post /v1/webhooks/{webhookId}/secret': { ...made(() => Promise.resolve({})), ...MANAGE, success: 200 },
  'get /v1/webhooks/{webhookId}/deliveries': MANAGE,
  'post /v1/webhooks/{webhookId}/deliveries': { ...made(() => Promise.resolve({})), ...MANAGE },
  'get /v1/webhooks/{webhookId}/deliveries/{deliveryId}': MANAGE,
  'post /v1/webhooks/{webhookId}/deliveries/{deliveryId}/repetition': {
    ...{ ...made(() => Promise.resolve({})), ...MANAGE, success: 200 },
  },

  'get /v1/audit': MANAGE,
  'get /v1/players/{playerId}/export': MANAGE,
  'post /v1/players/{playerId}/erasure': {
    ...{ ...MANAGE, success: 200, type: 'application/json' },
    body: () => Promise.resolve({ plays: 'keep' }),
  },

  // Needs no key: the link lets in, and the matrix has none that opens anything.
  'get /v1/linked-reports/{token}': { ...open(404), foreign: null, at: () => Promise.resolve({ token: NO_LINK }) },
  'post /v1/round-reports/{reportId}/share-links': made(() => Promise.resolve({})),
  'get /v1/round-reports': PROFILES,
  'get /v1/round-reports/{reportId}': PROFILES,
  'get /v1/round-reports/{reportId}/film': PROFILES,
  'get /v1/round-reports/{reportId}/report-card': PROFILES,
  'post /v1/round-reports': {
    ...made(async (rows, at) =>
      at['eventId'] === undefined ? await aReport(rows) : { eventId: at['eventId'], opponentId: at['playerId'] },
    ),
    ...{
      foreign: 404,
      foreignAt: async (rows: Rows) => ({ ...(await rows.make('eventId')), ...(await rows.make('playerId')) }),
    },
  },
};
