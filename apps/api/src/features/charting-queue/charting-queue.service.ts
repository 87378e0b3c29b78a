import { Injectable } from '@nestjs/common';
import type { QueueSegment } from '#domain/bracket/charting-queue-shape.js';
import { chartingQueue } from '#domain/bracket/charting-queue.js';
import { queueCells, type KnownCell } from '#domain/bracket/queue-cells.js';
import { DIMENSION_LABELS, DIMENSION_NAMES, type DimensionName } from '#domain/tendencies/dimension-names.js';
import type { FieldModel } from '#domain/tendencies/field-model.js';
import { ALL_SNAPS } from '#domain/tendencies/situation-keys.js';
import type { FilmToChart } from '#domain/reports/round-report-shape.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { OddsService } from '../brackets/odds.service.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { TendenciesService, type OwnSide } from '../tendencies/tendencies.service.js';
import {
  ChartingQueueQuery,
  type ChartingQueueResponse,
  type QueuedOpponentResponse,
  type QueueSegmentResponse,
} from './charting-queue.dto.js';
import { ChartingQueueRepository, type FilmedGame } from './charting-queue.repository.js';
import { BUNDLES, fieldSets, uncharted, type NamedFieldSet } from './film-of-games.js';

/** Whoever is less probable than this, or comes after so many others, is not worth film yet. */
const LEAST_PROBABLE = 0.02;
const MOST_OPPONENTS = 6;

export type QueueWish = Pick<ChartingQueueQuery, 'minutes' | 'charters' | 'secondsAPlay' | 'gameId'>;

@Injectable()
export class ChartingQueueService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: ChartingQueueRepository,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly odds: OddsService,
    private readonly tendencies: TendenciesService,
  ) {}

  read(credential: Credential, eventId: string, query: ChartingQueueQuery): Promise<ChartingQueueResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      const player = await this.players.require(db, query.player);
      const { opponents } = await this.odds.of(db, eventId, player.identity);
      const { minutes, charters, secondsAPlay } = query;
      return {
        eventId,
        playerId: player.identity,
        handle: player.handle,
        minutes,
        charters,
        secondsAPlay,
        ...(await this.of(db, opponents, query)),
      };
    });
  }

  /** Of one player's film, what would teach most: the queue at its defaults, as a report keeps it. */
  async ofPlayer(db: ClanDatabase, { identity, handle }: KnownPlayer): Promise<FilmToChart[]> {
    const { segments } = await this.of(db, [{ playerId: identity, handle, probability: 1 }], new ChartingQueueQuery());
    return segments.flatMap(({ gameId, what, settles: [most], filmScope, plays, minutes }) => {
      const fields = filmScope.fields === null ? 'all fields' : 'key fields';
      return most === undefined ? [] : [{ gameId, what, side: most.side, fields, plays, minutes }];
    });
  }

  /**
   * What to chart of these opponents, the most probable first.
   *
   * @throws ApiError `request.invalid` where the game asked for is none of theirs
   */
  async of(
    db: ClanDatabase,
    probable: readonly QueuedOpponentResponse[],
    wish: QueueWish,
  ): Promise<Pick<ChartingQueueResponse, 'opponents' | 'leftUnknown' | 'segments' | 'notes'>> {
    const opponents = probable.filter(({ probability }) => probability >= LEAST_PROBABLE).slice(0, MOST_OPPONENTS);
    const told = opponents.map(({ playerId, handle, probability }) => ({ playerId, handle, probability }));
    if (opponents.length === 0) {
      return { opponents: [], leftUnknown: null, segments: [], notes: ['Nobody is left to be met in this event.'] };
    }
    const sides: OwnSide[] = [];
    const cells: KnownCell[] = [];
    const players = await this.players.requireAll(
      db,
      opponents.map(({ playerId }) => playerId),
    );
    const scoutings = await this.tendencies.scoutAll(db, players);
    for (const [number, scouting] of scoutings.entries()) {
      const meeting = opponents[number]?.probability ?? 0;
      for (const side of ['offense', 'defense'] as const) {
        const asked = await scouting.own(side);
        sides.push(asked);
        cells.push(...queueCells({ ...asked, player: number, meeting }));
      }
    }
    const games = await this.repository.games(
      db,
      opponents.map(({ playerId }) => playerId),
      wish.gameId ?? null,
    );
    if (wish.gameId !== undefined && games.length === 0) throw noneOfTheirs(wish.gameId, opponents);
    const models = new Map(sides.map(({ fieldModel }) => [fieldModel.side, fieldModel]));
    const [side] = sides;
    const expected = side?.expectedSnaps ?? (() => new Float64Array());
    const numbers = new Map(opponents.map(({ playerId }, number) => [playerId, number]));
    const sets = fieldSets(wish.secondsAPlay);
    const { segments, before, after } = chartingQueue({
      cells,
      parts: uncharted(games, (playerId) => numbers.get(playerId) ?? -1, expected),
      bundles: BUNDLES,
      fieldSets: sets,
      knownShare: (dimension) => knownShare(dimension, models),
      minutes: wish.minutes,
      charters: wish.charters,
    });
    const names = side?.facts.situationNames ?? [];
    return {
      opponents: told,
      leftUnknown: before === 0 ? null : after / before,
      segments: segments.map((segment) =>
        segmentResponse(segment, { games, opponents, names, sets, total: before - after }),
      ),
      notes: notesOf(games, wish.gameId === undefined ? opponents : [], cells, segments.length),
    };
  }
}

function noneOfTheirs(gameId: string, opponents: readonly QueuedOpponentResponse[]): ApiError {
  const handles = opponents.map(({ handle }) => handle).join(', ');
  return new ApiError('request.invalid', 'that game is of nobody who may be met', {
    errors: [{ field: 'gameId', found: gameId, expected: `a game of ${handles}` }],
  });
}

/** On how many of the field's snaps a dimension is known where it is charted at all. */
function knownShare(dimension: DimensionName, models: ReadonlyMap<Side, FieldModel>): number {
  const side: Side = (DIMENSION_NAMES.offense as readonly string[]).includes(dimension) ? 'offense' : 'defense';
  const model = models.get(side);
  const snaps = model?.plays(ALL_SNAPS).length ?? 0;
  return model === undefined || snaps === 0 ? 0 : model.cell(dimension, ALL_SNAPS).tallies.known / snaps;
}

interface SegmentContext {
  readonly games: readonly FilmedGame[];
  readonly opponents: readonly QueuedOpponentResponse[];
  readonly names: readonly string[];
  readonly sets: readonly NamedFieldSet[];
  readonly total: number;
}

function segmentResponse(segment: QueueSegment, context: SegmentContext): QueueSegmentResponse {
  const { games, opponents, names, sets, total } = context;
  const game = games[segment.game];
  if (game === undefined) throw new Error('a segment is of one of the games');
  const { bundle, fieldSet, offenseIsHome } = segment;
  const fields = sets.find(({ name }) => name === fieldSet.name)?.fields ?? null;
  return {
    charter: segment.charter + 1,
    startsAfterMinutes: rounded(segment.startsAfter),
    words: `${bundle.name} with ${offenseIsHome ? game.homeHandle : game.awayHandle} on offense, ${fieldSet.name}: ${game.name}`,
    gameId: game.gameId,
    game: game.name,
    playedOn: game.playedOn,
    importance: game.importance,
    what: bundle.name,
    filmScope: { offense: offenseIsHome ? 'home' : 'away', downs: segment.downs, quarters: segment.quarters, fields },
    plays: Math.round(segment.plays),
    minutes: rounded(segment.minutes),
    video: game.url === null ? null : { url: game.url, second: secondOf(game, segment.quarters) },
    shareOfGain: total === 0 ? 0 : segment.gain / total,
    settles: segment.settles.map(({ cell, plays }) => {
      const opponent = opponents[cell.player];
      const situation = names[cell.situation] ?? '';
      const { known } = cell as KnownCell;
      const dimension = DIMENSION_LABELS[cell.dimension];
      return {
        words: `${opponent?.handle ?? ''}, ${cell.side}, ${situation}: ${dimension}, known on ${known} ${known === 1 ? 'snap' : 'snaps'}, about ${plays.toFixed(1)} more`,
        playerId: opponent?.playerId ?? '',
        side: cell.side,
        situation,
        dimension: cell.dimension,
        known,
        expectedPlays: rounded(plays),
      };
    }),
  };
}

/** Where the first of these quarters begins in the video, as far as a chart in view says. */
function secondOf({ quarterSeconds, offsetSeconds }: FilmedGame, quarters: readonly number[] | null): number | null {
  const first = quarterSeconds.find(({ quarter }) => quarters?.includes(quarter) ?? true);
  return first === undefined ? null : first.second + offsetSeconds;
}

function notesOf(
  games: readonly FilmedGame[],
  opponents: readonly QueuedOpponentResponse[],
  cells: readonly KnownCell[],
  segments: number,
): string[] {
  const notes = opponents
    .filter(
      ({ playerId }) =>
        !games.some(({ homePlayerId, awayPlayerId }) => [homePlayerId, awayPlayerId].includes(playerId)),
    )
    .map(({ handle }) => `No game of ${handle} is registered.`);
  if (cells.length === 0) notes.push('Nothing is charted in view, so there is nothing to weigh a piece of film by.');
  else if (segments === 0 && games.length > 0) {
    notes.push(
      'No uncharted piece of film fits into the time: everything in view is charted, or the time is too short.',
    );
  }
  return notes;
}

function rounded(value: number): number {
  return Math.round(value * 10) / 10;
}
