import { Injectable } from '@nestjs/common';
import { answersTo, type AnswersQuestion } from '#domain/answers/answers-to.js';
import { defenseOptionOf, playsAgainst, playsOfCall, type AskedCall } from '#domain/answers/asked-call.js';
import { bestCalls } from '#domain/answers/best-call.js';
import { gamesMet } from '#domain/answers/games-met.js';
import type { MenuCall } from '#domain/answers/options.js';
import { reAdjustments } from '#domain/answers/re-adjustments.js';
import { rosterFit, type UnitStrengths } from '#domain/answers/roster-fit.js';
import { stagedAnswers } from '#domain/answers/stages.js';
import { theirCalls } from '#domain/answers/their-calls.js';
import { answersRestOn } from '#domain/answers/words.js';
import { ALL_SNAPS } from '#domain/tendencies/situation-keys.js';
import { NamesInViewRepository } from '../../common/names-in-view.repository.js';
import { ApiError } from '../../common/problems.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { TendencyAnswersService, type Answering } from '../tendencies/tendency-answers.service.js';
import {
  answerResponse,
  gameMetResponse,
  moveResponse,
  reAdjustmentResponse,
  rosterSplitResponse,
} from './answers-response.js';
import type { AnswersQuery, AnswersResponse } from './answers.dto.js';
import { AskedCallsService, callLabel } from './asked-calls.service.js';
import { FieldAnswersService, type FieldAnswers } from './field-answers.service.js';
import { UnitGradesRepository, type UnitGrades } from './unit-grades.repository.js';

/** More games than this are a list to get lost in. */
const MOST_GAMES = 20;

interface Book {
  readonly menu: readonly MenuCall[];
  readonly grades: readonly UnitGrades[];
  /** Of those who met the call. */
  readonly names: string;
}

/** What has answered an opponent's call, and what has beaten an opponent's defense. */
@Injectable()
export class AnswersService {
  constructor(
    private readonly answers: TendencyAnswersService,
    private readonly field: FieldAnswersService,
    private readonly calls: AskedCallsService,
    private readonly grades: UnitGradesRepository,
    private readonly names: NamesInViewRepository,
  ) {}

  read(credential: Credential, query: AnswersQuery, heldTag: string | undefined): Promise<TaggedAnswer> {
    const asking = { credential, playerId: query.playerId, query, heldTag };
    const book = async (db: ClanDatabase): Promise<Book> => ({
      menu: await this.field.menuOf(db),
      grades: await this.grades.all(db),
      names: await this.names.revision(db),
    });
    return this.answers.answer<AnswersQuery, Book>(
      'answers',
      asking,
      (answering, read) => this.compute(answering, query, read ?? { menu: [], grades: [], names: '' }),
      'any charts',
      book,
    );
  }

  private async compute({ db, head, asked }: Answering, query: AnswersQuery, book: Book): Promise<AnswersResponse> {
    const field = await this.field.of(db);
    const of = await asked();
    const { call, places, fromFormation, everything } = await this.question(db, query, field, of.player);
    const { model, charts } = field;
    const { plays } = model.facts;
    const who = await this.calls.whoIs(db, field);
    const offense = query.side === 'offense';
    const games = gamesMet(model, places, query.confidence, offense, MOST_GAMES);
    const base = {
      menu: book.menu,
      otherCalls: theirCalls(model, field.counts[query.side], ALL_SNAPS, of.player).options,
      confidence: query.confidence,
    };
    const staged = offense ? stagedAnswers(model, { ...base, asked: everything, label: call }) : null;
    const huddle = staged?.huddle ?? answersTo(model, this.againstDefense(field, base, call, places));
    const checks = staged?.line.checks ?? huddle.filter(({ option }) => option.menu?.byCheck === true);
    const own = offense ? model.coded.offense : model.coded.defense;
    const gameCount = new Set(Array.from(places, (play) => plays.chartIndex[play])).size;
    return {
      ...head,
      restsOn: answersRestOn(model, places.length, gameCount),
      call: {
        label: call,
        fieldPlays: places.length,
        opponentPlays: places.filter((play) => own[play] === of.player).length,
        fromFormation,
      },
      games: games.map((game) => gameMetResponse(game, charts[game.chartIndex]?.gameId ?? '', plays, who)),
      huddle: huddle.map((answer) => answerResponse(answer, plays, who, query.confidence)),
      checks: checks.map((answer) => answerResponse(answer, plays, who, query.confidence)),
      moves: (staged?.line.moves ?? []).map((move) => moveResponse(move, plays)),
      byHand: (staged?.hand ?? []).map((move) => moveResponse(move, plays)),
      reAdjustments: reAdjustments(of, query.side).map(reAdjustmentResponse),
      rosterFit: rosterFit(model.facts, places, strengths(field, book.grades), query.confidence).map((split) =>
        rosterSplitResponse(split, plays),
      ),
    };
  }

  private againstDefense(
    { model }: FieldAnswers,
    base: Pick<AnswersQuestion, 'menu' | 'otherCalls' | 'confidence'>,
    label: string,
    places: Int32Array,
  ): AnswersQuestion {
    return { ...base, places, answering: 'offense', call: defenseOptionOf(model, label, places) };
  }

  /** The call that is asked about, in words and as plays of the field. */
  private async question(
    db: ClanDatabase,
    query: AnswersQuery,
    { model }: FieldAnswers,
    player: number,
  ): Promise<{ call: string; places: Int32Array; fromFormation: number; everything: AskedCall }> {
    const terms = await this.calls.of(db, model, query.side, query);
    if (query.side === 'defense') {
      const places = playsAgainst(model, terms);
      const call = callLabel(model, [terms.frontId, terms.coverageId, terms.pressureId]);
      return { call: call === '' ? 'any defense' : call, places, fromFormation: places.length, everything: {} };
    }
    const best = query.best === undefined ? null : bestCalls(model, player, query.best, query.confidence)[0];
    if (best === undefined) {
      throw new ApiError('request.invalid', 'the opponent has no such call', {
        errors: [{ field: 'best', found: query.best ?? '', expected: 'a kind of call of which four are charted' }],
      });
    }
    const asked = { ...terms, conceptId: best?.conceptId ?? terms.conceptId };
    const call = callLabel(model, [asked.conceptId, asked.familyId]);
    const places = playsOfCall(model, { ...asked, formationId: null });
    return {
      call: call === '' ? 'any call' : call,
      places,
      fromFormation: asked.formationId === null ? places.length : playsOfCall(model, asked).length,
      everything: asked,
    };
  }
}

/** Strengths of the units of either side in a play's game, from 0 for the least grade to 1 for the best. */
function strengths(
  { model, charts, identities }: FieldAnswers,
  grades: readonly UnitGrades[],
): (play: number, side: 'offense' | 'defense') => UnitStrengths | null {
  const byEntrant = new Map(
    grades.map(({ eventId, player, grades: units, scale }) => [
      `${eventId} ${player}`,
      new Map(
        Object.entries(units).flatMap(([unit, grade]) => {
          const place = scale.findIndex((known) => known === grade);
          return place < 0 || scale.length < 2 ? [] : [[unit, place / (scale.length - 1)] as const];
        }),
      ),
    ]),
  );
  const { facts, coded } = model;
  return (play, side) => {
    const eventId = charts[facts.plays.chartIndex[play] ?? -1]?.eventId ?? '';
    const player = identities[(side === 'offense' ? coded.offense : coded.defense)[play] ?? -1] ?? '';
    return byEntrant.get(`${eventId} ${player}`) ?? null;
  };
}
