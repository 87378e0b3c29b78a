import { Injectable } from '@nestjs/common';
import type { AnswerModel } from '#domain/answers/answer-model.js';
import type { MenuCall } from '#domain/answers/options.js';
import { callSheet } from '#domain/call-sheet/call-sheet.js';
import type { CallSheet } from '#domain/call-sheet/call-sheet-shape.js';
import { SheetField } from '#domain/call-sheet/sheet-field.js';
import { DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { clockOfGames } from '../../common/clock-of-games.js';
import { KeptAnswers } from '../../common/kept-answers.js';
import { NamesInViewRepository } from '../../common/names-in-view.repository.js';
import { ApiError } from '../../common/problems.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { ReadCallSheet } from '../../rendering/call-sheet-words.js';
import type { PageFrame } from '../../rendering/page/page.js';
import type { Credential } from '../access/credential.js';
import { FieldAnswersService, type FieldAnswers } from '../answers/field-answers.service.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { FilmNamesService } from '../round-reports/film-names.service.js';
import { TendenciesService, type Archive, type Reader } from '../tendencies/tendencies.service.js';
import { callSheetBody, type CallSheetType } from './call-sheet-body.js';
import { CallSheetQuery } from './call-sheets.dto.js';
import { byDistance, OurFiguresService } from './our-figures.service.js';

/** How a sheet is to be had. */
interface AskedSheet {
  readonly type: CallSheetType;
  readonly frame: PageFrame;
  /** The tag of what the client has. */
  readonly heldTag: string | undefined;
}

/** Of whom a sheet is, found before anything is computed. */
interface SheetMatch {
  readonly player: KnownPlayer;
  readonly opponent: KnownPlayer;
  readonly round: string | null;
}

/** What sheets are made from, whoever they are against. */
interface SheetSource {
  readonly archive: Archive;
  readonly answers: FieldAnswers;
  readonly menu: readonly MenuCall[];
}

/** The sheet to call a game from, made from film, menu and seed: the same of these give the same sheet. */
@Injectable()
export class CallSheetsService {
  private readonly fields = new WeakMap<AnswerModel, SheetField>();

  constructor(
    private readonly transactions: ClanTransactions,
    private readonly field: FieldAnswersService,
    private readonly tendencies: TendenciesService,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly figures: OurFiguresService,
    private readonly films: FilmNamesService,
    private readonly names: NamesInViewRepository,
    private readonly kept: KeptAnswers,
  ) {}

  read(credential: Credential, query: CallSheetQuery, { type, frame, heldTag }: AskedSheet): Promise<TaggedAnswer> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, query.eventId);
      const player = await this.players.require(db, query.playerId);
      const match = { player, ...(await this.opponent(db, query, player)) };
      const reader = await this.tendencies.reader(db);
      const archive = await this.tendencies.archiveInputs(db, reader);
      const [menu, names] = [await this.field.menuOf(db, reader), await this.names.revision(db)];
      const inputs = ['call sheet', type, query, archive, match, menu, names];
      return this.kept.answer(inputs, heldTag, async () =>
        callSheetBody(await this.made(db, reader, query, match, menu), type, frame),
      );
    });
  }

  /** Sheets against several opponents, in the order in which they are named. */
  async against(
    db: ClanDatabase,
    player: KnownPlayer,
    opponents: readonly KnownPlayer[],
    lean: number,
  ): Promise<CallSheet[]> {
    const reader = await this.tendencies.reader(db);
    const source = await this.source(db, reader, await this.field.menuOf(db, reader));
    const wish = { ...new CallSheetQuery(), lean };
    const sheets: CallSheet[] = [];
    for (const opponent of opponents) sheets.push(await this.sheet(db, source, { player, opponent }, wish));
    return sheets;
  }

  private async source(db: ClanDatabase, reader: Reader, menu: readonly MenuCall[]): Promise<SheetSource> {
    return { archive: await this.tendencies.archive(db, reader), answers: await this.field.of(db, reader), menu };
  }

  private async sheet(
    db: ClanDatabase,
    { archive, answers, menu }: SheetSource,
    { player, opponent }: Pick<SheetMatch, 'player' | 'opponent'>,
    { lean, seed, confidence }: Pick<CallSheetQuery, 'lean' | 'seed' | 'confidence'>,
  ): Promise<CallSheet> {
    const { model, payoffs, players } = answers;
    return callSheet({
      field: this.fieldOf(archive, model),
      payoffs,
      opponent: players.get(opponent.identity) ?? -1,
      menu,
      figures: this.figures.of(archive, player, confidence),
      theirFigures: this.figures.of(archive, opponent, confidence),
      chain: archive.expectedPoints,
      theirFourthDowns: byDistance((await this.figures.theirs(db, opponent, confidence)).decision),
      lean,
      confidence,
      seed,
    });
  }

  private async made(
    db: ClanDatabase,
    reader: Reader,
    { eventId, lean, seed, confidence }: CallSheetQuery,
    { player, opponent, round }: SheetMatch,
    menu: readonly MenuCall[],
  ): Promise<ReadCallSheet> {
    const source = await this.source(db, reader, menu);
    const sheet = await this.sheet(db, source, { player, opponent }, { lean, seed, confidence });
    const charts = source.archive.charts
      .filter(({ homePlayerId, awayPlayerId }) => [homePlayerId, awayPlayerId].includes(opponent.identity))
      .map(({ chartId, gameId, revision }) => ({ chartId, gameId, revision }));
    const looked = await this.films.of(db, {
      players: [player.identity, opponent.identity],
      events: [eventId],
      games: charts.map(({ gameId }) => gameId),
      charts: charts.map(({ chartId }) => chartId),
    });
    return { sheet, playerId: player.identity, opponentId: opponent.identity, eventId, round, charts, ...looked };
  }

  private fieldOf({ charts }: Archive, model: AnswerModel): SheetField {
    const kept = this.fields.get(model);
    if (kept !== undefined) return kept;
    const clock = clockOfGames(charts)(model.facts.plays);
    const field = new SheetField(model, clock, DEFAULT_FOOTBALL_SETTINGS.situations);
    this.fields.set(model, field);
    return field;
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
