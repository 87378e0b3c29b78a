import { Injectable } from '@nestjs/common';
import { callSheet } from '#domain/call-sheet/call-sheet.js';
import { DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { clockOfGames } from '../../common/clock-of-games.js';
import { linearSolver } from '../../common/linear-programmes.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { ReadCallSheet } from '../../rendering/call-sheet-words.js';
import type { Credential } from '../access/credential.js';
import { FieldAnswersService } from '../answers/field-answers.service.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { FilmNamesService } from '../round-reports/film-names.service.js';
import { TendenciesService } from '../tendencies/tendencies.service.js';
import type { CallSheetQuery } from './call-sheets.dto.js';
import { byDistance, OurFiguresService } from './our-figures.service.js';

/** The sheet to call a game from, made anew from film, menu and seed: the same of these give the same sheet. */
@Injectable()
export class CallSheetsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly field: FieldAnswersService,
    private readonly tendencies: TendenciesService,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly figures: OurFiguresService,
    private readonly films: FilmNamesService,
  ) {}

  read(credential: Credential, query: CallSheetQuery): Promise<ReadCallSheet> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { eventId, lean, seed, confidence } = query;
      await this.events.require(db, eventId);
      const player = await this.players.require(db, query.playerId);
      const { opponent, round } = await this.opponent(db, query, player);
      const archive = await this.tendencies.archive(db);
      const { model, payoffs, players } = await this.field.of(db);
      const sheet = callSheet({
        model,
        payoffs,
        clock: clockOfGames(archive.charts)(model.facts.plays),
        situations: DEFAULT_FOOTBALL_SETTINGS.situations,
        opponent: players.get(opponent.identity) ?? -1,
        menu: await this.field.menuOf(db),
        figures: this.figures.of(archive, player, confidence),
        theirFigures: this.figures.of(archive, opponent, confidence),
        chain: archive.expectedPoints,
        theirFourthDowns: byDistance((await this.figures.theirs(db, opponent, confidence)).decision),
        solve: await linearSolver(),
        lean,
        confidence,
        seed,
      });
      const charts = archive.charts
        .filter(({ homePlayerId, awayPlayerId }) => [homePlayerId, awayPlayerId].includes(opponent.identity))
        .map(({ chartId, gameId, revision }) => ({ chartId, gameId, revision }));
      const looked = await this.films.of(db, {
        players: [player.identity, opponent.identity],
        events: [eventId],
        games: charts.map(({ gameId }) => gameId),
        charts: charts.map(({ chartId }) => chartId),
      });
      return { sheet, playerId: player.identity, opponentId: opponent.identity, eventId, round, charts, ...looked };
    });
  }

  private async opponent(
    db: ClanDatabase,
    { eventId, opponentId }: CallSheetQuery,
    player: KnownPlayer,
  ): Promise<{ opponent: KnownPlayer; round: string | null }> {
    const next = await this.events.nextMatch(db, eventId, player.identity);
    const id = opponentId ?? next?.opponentId ?? null;
    if (id === null) {
      throw new ApiError('report.nothing_to_scout', 'the opponent is not known from the bracket; name an opponentId');
    }
    return { opponent: await this.players.require(db, id), round: next?.roundName ?? null };
  }
}
