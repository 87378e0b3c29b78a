import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { CODE_VERSION } from '../../config/code-version.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService } from '../tendencies/tendencies.service.js';
import { TendencyWishesService } from '../tendencies/tendency-wishes.service.js';
import { profileResponse } from './profile-response.js';
import type { ProfileQuery } from './profile.dto.js';

/** A profile as JSON, and the tag of everything it was computed from. */
export interface TaggedProfile {
  readonly etag: string;
  /** Null when the client has this very profile already. */
  readonly body: string | null;
}

/** Dashboards ask for the same few opponents again and again. */
const KEPT_PROFILES = 64;

@Injectable()
export class ProfileService {
  /** By tag, so that whatever changes a profile also leaves its old body behind. */
  private readonly kept = new Map<string, string>();

  constructor(
    private readonly transactions: ClanTransactions,
    private readonly players: PlayersService,
    private readonly tendencies: TendenciesService,
    private readonly wishes: TendencyWishesService,
  ) {}

  async read(
    credential: Credential,
    playerId: string,
    query: ProfileQuery,
    heldTag: string | undefined,
  ): Promise<TaggedProfile> {
    return this.transactions.run(credential, 'read', async (db) => {
      const player = await this.players.require(db, playerId);
      const scouting = await this.tendencies.scout(db, player, await this.wishes.of(db, query));
      const etag = tagOf([scouting.inputs, playerId, player.handle], query);
      if (heldTag === etag) return { etag, body: null };
      const kept = this.kept.get(etag);
      if (kept !== undefined) return { etag, body: kept };
      const { plays, profile } = await scouting.side(query.side, query.confidence, query.situation);
      const of = { playerId, handle: player.handle, newestGame: scouting.charts[0]?.playedOn ?? null };
      const evidence = query.evidence === 'plays' ? plays.plays : null;
      const body = JSON.stringify(profileResponse(profile, of, evidence));
      this.keep(etag, body);
      return { etag, body };
    });
  }

  private keep(etag: string, body: string): void {
    const [oldest] = this.kept.keys();
    if (this.kept.size >= KEPT_PROFILES && oldest !== undefined) this.kept.delete(oldest);
    this.kept.set(etag, body);
  }
}

function tagOf(inputs: readonly string[], { side, confidence, evidence, situation }: ProfileQuery): string {
  const text = JSON.stringify([...inputs, side, confidence, evidence, situation, CODE_VERSION]);
  return `"${createHash('sha256').update(text).digest('base64url')}"`;
}
