import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayerInput, type PlayerPage, type PlayerResponse, type PlayersQuery } from './players.dto.js';
import { PlayersRepository, type PlayerRow } from './players.repository.js';

/** A player as one person, whatever records clans keep of them. */
export interface KnownPlayer {
  readonly identity: string;
  readonly handle: string;
  /** Ids of all visible records of this player; plays carry any of them. */
  readonly recordIds: readonly string[];
}

@Injectable()
export class PlayersService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: PlayersRepository,
  ) {}

  list(credential: Credential, { after, limit, name }: PlayersQuery): Promise<PlayerPage> {
    return this.transactions.run(credential, 'glance', async (db) => {
      const rows = await this.repository.list(db, { after: after ?? '', name: name ?? null }, limit + 1);
      const { items, next } = page(rows, limit, (row) => row.normalisedHandle);
      return { items: items.map((row) => without(row, 'normalisedHandle')), next };
    });
  }

  read(credential: Credential, playerId: string): Promise<PlayerResponse> {
    return this.transactions.run(credential, 'glance', (db) => this.visible(db, playerId));
  }

  create(credential: Credential, creation: Creation, input: PlayerInput): Promise<PlayerResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await this.check(db, id, input);
      await this.repository.insert(db, id, input, null);
      return this.visible(db, id);
    });
  }

  change(credential: Credential, playerId: string, change: Change): Promise<PlayerResponse> {
    return this.resources.change(credential, change, this.kept(playerId));
  }

  remove(credential: Credential, playerId: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(playerId));
  }

  /** A record of one's own for a player whom another clan published, linked to that one. */
  adopt(credential: Credential, creation: Creation, playerId: string): Promise<PlayerResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const source = await this.visible(db, playerId);
      if (source.own) throw new ApiError('resource.taken', 'this record is yours already');
      const id = uuidv7();
      const input = { handle: source.handle, linkedPlayerId: source.linkedPlayerId ?? source.id };
      await this.check(db, id, input);
      await this.repository.insert(db, id, input, source.id);
      return this.visible(db, id);
    });
  }

  /** @throws ApiError `resource.not_found`, also for a player whom only another clan may see */
  async require(db: ClanDatabase, playerId: string): Promise<KnownPlayer> {
    const [player] = await this.requireAll(db, [playerId]);
    return player;
  }

  /**
   * Each of these players, in their order.
   *
   * @throws ApiError `resource.not_found`, also for a player whom only another clan may see
   */
  async requireAll<Ids extends readonly string[]>(
    db: ClanDatabase,
    playerIds: readonly [...Ids],
  ): Promise<{ [Place in keyof Ids]: KnownPlayer }> {
    const records = await this.repository.sameAs(db, playerIds);
    const players = playerIds.map((playerId) => knownPlayer(records.filter(({ asked }) => asked === playerId)));
    // One for each id, which `map` does not tell.
    return players as { [Place in keyof Ids]: KnownPlayer };
  }

  /**
   * The player and the archive's revision by one statement, which is all that a question needs of the database whose
   * answer the process holds.
   *
   * @throws ApiError `resource.not_found`, also for a player whom only another clan may see
   */
  async requireInArchive(
    db: ClanDatabase,
    playerId: string,
  ): Promise<{ readonly player: KnownPlayer; readonly archive: string }> {
    const records = await this.repository.inArchive(db, playerId);
    return { player: knownPlayer(records), archive: records[0]?.archive ?? '' };
  }

  /** The clan's own record, locked until the transaction ends. */
  async lockOwn(db: ClanDatabase, playerId: string): Promise<PlayerResponse> {
    return found(await this.repository.lockOwn(db, playerId), 'player', 'of yours ');
  }

  handles(db: ClanDatabase, identities: readonly string[]): Promise<ReadonlyMap<string, string>> {
    return this.repository.handles(db, identities);
  }

  private async visible(db: ClanDatabase, playerId: string): Promise<PlayerResponse> {
    return found(await this.repository.find(db, playerId), 'player');
  }

  private kept(id: string): Changeable<PlayerResponse, PlayerInput> & Removable<PlayerResponse> {
    return {
      kind: 'player',
      id,
      input: PlayerInput,
      lock: (db) => this.repository.lockOwn(db, id),
      inputOf: (row) => without(row, 'id', 'sourceId', 'own'),
      write: async (db, input, before) => {
        await this.check(db, id, input);
        await this.repository.update(db, id, input);
        if ((input.linkedPlayerId ?? null) !== before.linkedPlayerId) await this.repository.raiseRevision(db, id);
      },
      read: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  /** Whatever a sheet may call the player must not mean another one, and a link must lead somewhere. */
  private async check(db: ClanDatabase, id: string, { handle, aliases, linkedPlayerId }: PlayerInput): Promise<void> {
    const names = [handle, ...(aliases ?? [])];
    const errors = names
      .filter((name) => normaliseTerm(name) === '')
      .map((found): FieldProblem => ({ field: 'handle', found, expected: 'a letter or a digit' }));
    if (errors.length > 0) throw new ApiError('request.invalid', 'a name has neither letter nor digit', { errors });
    const taken = await this.repository.namesOfOthers(db, id, names);
    if (taken.length > 0) {
      throw new ApiError('resource.taken', 'another player of yours goes by that name', {
        errors: taken.map((found) => ({ field: 'handle', found, expected: 'a name of no other player' })),
      });
    }
    if (typeof linkedPlayerId === 'string' && (await this.repository.find(db, linkedPlayerId)) === null) {
      throw new ApiError('resource.reference_unknown', 'the linked player is not there', {
        errors: [{ field: 'linkedPlayerId', found: linkedPlayerId, expected: 'a player whom you can read' }],
      });
    }
  }
}

/** @throws ApiError `resource.not_found` */
function knownPlayer(records: readonly PlayerRow[]): KnownPlayer {
  const [first] = records;
  if (first === undefined) throw new ApiError('resource.not_found', 'no player has this id');
  return { identity: first.identity, handle: first.handle, recordIds: records.map(({ id }) => id) };
}
