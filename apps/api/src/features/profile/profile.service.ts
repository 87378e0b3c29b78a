import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { Evidence } from '#domain/tendencies/evidence.js';
import type { DimensionProfile, SituationProfile } from '#domain/tendencies/profile-shape.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import { CODE_VERSION } from '../../config/code-version.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService } from '../tendencies/tendencies.service.js';
import type {
  DimensionResponse,
  PlayReferenceResponse,
  ProfileQuery,
  ProfileResponse,
  SituationResponse,
  ValueShareResponse,
} from './profile.dto.js';

/** A profile and the tag of everything it was computed from. */
export interface TaggedProfile {
  readonly etag: string;
  /** Null when the client has this very profile already. */
  readonly body: ProfileResponse | null;
}

@Injectable()
export class ProfileService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly players: PlayersService,
    private readonly tendencies: TendenciesService,
  ) {}

  async read(
    credential: Credential,
    playerId: string,
    query: ProfileQuery,
    heldTag: string | undefined,
  ): Promise<TaggedProfile> {
    return this.transactions.run(credential, 'read', async (db) => {
      const player = await this.players.require(db, playerId);
      const scouting = await this.tendencies.scout(db, player);
      const etag = tagOf(scouting.inputs, player.handle, query);
      if (heldTag === etag) return { etag, body: null };
      const { plays, profile } = await scouting.side(query.side, query.confidence);
      const chartIds = query.evidence === 'plays' ? plays.plays : null;
      return {
        etag,
        body: {
          playerId,
          handle: player.handle,
          side: profile.side,
          confidence: profile.confidence,
          snaps: profile.snaps,
          games: profile.games,
          newestGame: scouting.charts[0]?.playedOn ?? null,
          situations: profile.situations.map((situation) => situationResponse(situation, chartIds)),
        },
      };
    });
  }
}

function tagOf(inputs: string, handle: string, query: ProfileQuery): string {
  const { side, confidence, evidence } = query;
  const text = JSON.stringify([inputs, handle, side, confidence, evidence, CODE_VERSION]);
  return `"${createHash('sha256').update(text).digest('base64url')}"`;
}

function situationResponse(profile: SituationProfile, evidence: PlayColumns | null): SituationResponse {
  const { situation, snaps, games, results, dimensions } = profile;
  return {
    situation,
    snaps,
    games,
    results,
    dimensions: dimensions.map((dimension) => dimensionResponse(dimension, evidence)),
  };
}

function dimensionResponse(profile: DimensionProfile, evidence: PlayColumns | null): DimensionResponse {
  const { dimension, label, known, values, visibility } = profile;
  return { dimension, label, known, visibility, values: values.map((value) => valueResponse(value, evidence)) };
}

function valueResponse(share: ValueShare, evidence: PlayColumns | null): ValueShareResponse {
  const { value, count, raw, shrunk, field, conflict, results } = share;
  return {
    label: value.label,
    termId: value.termId,
    count,
    raw,
    shrunk,
    field,
    conflict,
    results,
    ...(evidence === null ? {} : { plays: references(share.evidence, evidence) }),
  };
}

function references(evidence: Evidence, plays: PlayColumns): PlayReferenceResponse[] {
  return evidence.references().map(({ chartIndex, playNumber }) => ({
    chartId: plays.charts[chartIndex]?.chartId ?? '',
    playNumber,
  }));
}
