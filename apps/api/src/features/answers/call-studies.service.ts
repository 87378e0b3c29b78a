import { Injectable } from '@nestjs/common';
import type { MenuCall } from '#domain/answers/options.js';
import { callStudy, type CallStudy } from '#domain/call-study/call-study.js';
import {
  extentWords,
  giveawayWords,
  lookedAtWords,
  situationResultWords,
  spreadWords,
} from '#domain/call-study/call-study-words.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { concernsCall } from '#domain/coaching/concerns-call.js';
import { DEFAULT_TELL_LEVEL } from '#domain/tendencies/tells/tells.js';
import { usageResponse } from '../../common/event-usage.js';
import { count, interval, orNull, results, roundedP } from '../../common/figures.js';
import { KeptAnswers } from '../../common/kept-answers.js';
import { NamesInViewRepository } from '../../common/names-in-view.repository.js';
import { playReference, playReferences } from '../../common/play-reference.dto.js';
import { ApiError } from '../../common/problems.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import { MOST_CITED } from '../../rendering/page/call-study-page.js';
import type { PageFrame } from '../../rendering/page/page.js';
import { placeIn } from '../../rendering/report-film.js';
import type { Credential } from '../access/credential.js';
import { answerResponse, gameMetResponse, moveResponse } from './answers-response.js';
import { AskedCallsService, callLabel, type AskedTerms } from './asked-calls.service.js';
import { FieldAnswersService, type FieldAnswers } from './field-answers.service.js';
import { CoachingPointsService, type ClanPoint } from '../coaching-points/coaching-points.service.js';
import { FilmNamesService } from '../round-reports/film-names.service.js';
import { TendenciesService, type Reader } from '../tendencies/tendencies.service.js';
import { TrendsService } from '../trends/trends.service.js';
import { callStudyBody, type CallStudyType, type FoundStudy } from './call-study-body.js';
import type {
  CallStudyQuery,
  CallStudyResponse,
  StudiedPlayResponse,
  StudiedPointResponse,
} from './call-studies.dto.js';

/** How a study is to be had. */
interface AskedStudy {
  readonly type: CallStudyType;
  readonly frame: PageFrame;
  /** The tag of what the client has. */
  readonly heldTag: string | undefined;
}

/** The clan's own names for calls and what it has written; nothing for a page that leaves the clan. */
interface OwnBook {
  readonly menu: readonly MenuCall[];
  readonly points: readonly ClanPoint[];
}

/** One call over all that the clan may read: who uses it, what gives it away, who has held it and how. */
@Injectable()
export class CallStudiesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly field: FieldAnswersService,
    private readonly calls: AskedCallsService,
    private readonly trends: TrendsService,
    private readonly points: CoachingPointsService,
    private readonly films: FilmNamesService,
    private readonly tendencies: TendenciesService,
    private readonly names: NamesInViewRepository,
    private readonly kept: KeptAnswers,
  ) {}

  read(credential: Credential, query: CallStudyQuery, { type, frame, heldTag }: AskedStudy): Promise<TaggedAnswer> {
    return this.transactions.run(credential, 'read', async (db) => {
      const reader = await this.tendencies.reader(db);
      const archive = await this.tendencies.archiveInputs(db, reader);
      const book: OwnBook = query.ownBook
        ? { menu: await this.field.menuOf(db, reader), points: await this.points.ofClan(db, reader.vocabulary) }
        : { menu: [], points: [] };
      const inputs = ['call study', type, query, archive, book, await this.names.revision(db)];
      return this.kept.answer(inputs, heldTag, async () =>
        callStudyBody(await this.found(db, reader, query, book), type, frame),
      );
    });
  }

  private async found(db: ClanDatabase, reader: Reader, query: CallStudyQuery, book: OwnBook): Promise<FoundStudy> {
    const { side, confidence } = query;
    const field = await this.field.of(db, reader);
    const { model } = field;
    const asked = await this.calls.of(db, model, side, query);
    const label = callLabel(model, Object.values(asked));
    if (label === '') {
      throw new ApiError('request.invalid', 'no call is named', {
        errors: [{ field: 'side', found: side, expected: `a part of a call of the ${side}` }],
      });
    }
    const { found, usage, days } = await this.trends.find(db, side, confidence, reader);
    const { menu } = book;
    const study = callStudy({ ...{ model, side, asked, label, usage, trends: found, menu, confidence } });
    return this.shaped(db, query, field, { study, label, points: pointsOn(book, model.vocabulary, asked), days });
  }

  private async shaped(
    db: ClanDatabase,
    { side, confidence }: CallStudyQuery,
    field: FieldAnswers,
    { study, label, points, days }: Shaping,
  ): Promise<FoundStudy> {
    const { model, charts } = field;
    const { facts } = model;
    const { plays } = facts;
    const who = await this.calls.whoIs(db, field);
    const { trend } = study.usage;
    const games = study.met.map((game) => gameMetResponse(game, charts[game.chartIndex]?.gameId ?? '', plays, who));
    const answers = study.answers.map((answer) => answerResponse(answer, plays, who, confidence));
    const moves = study.moves.map((move) => moveResponse(move, plays));
    const giveaways = study.giveaways.found.map((found) => ({
      words: giveawayWords(found),
      with: count({ count: found.count, known: found.plays }),
      without: count({ count: found.countWithout, known: found.playsWithout }),
      difference: orNull(found.interval, interval),
      adjusted: roundedP(found.adjustedPValue),
      secondsLeft: found.seconds?.median ?? null,
      plays: playReferences(found.evidence, plays),
    }));
    const cited = [...games, ...answers, ...moves, ...giveaways].flatMap((line) => line.plays.slice(0, MOST_CITED));
    const citedCharts = [...new Map(cited.map(({ chartId, gameId }) => [chartId, { chartId, gameId }])).values()];
    const looked = await this.films.of(db, {
      ...{ players: [], events: [] },
      games: citedCharts.map(({ gameId }) => gameId),
      charts: citedCharts.map(({ chartId }) => chartId),
    });
    const response: CallStudyResponse = {
      ...{ side, confidence, restsOn: extentWords(study) },
      call: { label, plays: study.plays, games: study.games, players: study.players },
      usage: {
        words: spreadWords(study.usage),
        verdict: trend?.verdict ?? null,
        byEvent: days.map((day, at) => {
          const usage = study.usage.byEvent[at];
          if (usage === undefined) throw new RangeError('usage has one entry an event');
          return { ...usageResponse(usage, facts, false), event: { ...day, eventIds: [...day.eventIds] } };
        }),
      },
      giveaways: {
        words: lookedAtWords(study.giveaways, DEFAULT_TELL_LEVEL),
        tested: study.giveaways.tested,
        found: giveaways,
      },
      situations: study.results.map(({ situation, results: of }) => ({
        situation,
        words: situationResultWords(of),
        results: results(of),
      })),
      ...{ games, answers, moves },
      film: study.film.map(({ place, answer, succeeded }): StudiedPlayResponse => {
        const play = playReference(plays, place);
        const { at, address } = placeIn(looked.names.video(play.chartId), play.second ?? 0);
        return { ...play, at, address, game: looked.names.game(play.gameId), reason: filmReason(answer, succeeded) };
      }),
      coachingPoints: points,
    };
    return {
      study: response,
      page: { ...response, charts: citedCharts, names: looked.names, reportFilm: looked.film },
    };
  }
}

/** What the clan has written itself on the call. */
function pointsOn({ points }: OwnBook, vocabulary: Vocabulary, asked: AskedTerms): StudiedPointResponse[] {
  const { conceptId, familyId, formationId, frontId, coverageId, pressureId } = asked;
  const call = {
    ...{ concept: conceptId, callFamily: familyId, formation: formationId },
    ...{ front: frontId, coverage: coverageId, pressure: pressureId },
  };
  return points
    .filter((point) => concernsCall(point, call, vocabulary))
    .map(({ id, about, text, revision, writtenBy, writtenAt }) => ({
      id,
      about,
      text,
      revision,
      writtenBy,
      writtenAt,
    }));
}

interface Shaping {
  readonly study: CallStudy;
  readonly label: string;
  readonly points: StudiedPointResponse[];
  readonly days: Awaited<ReturnType<TrendsService['find']>>['days'];
}

/** `no success against three down tight, cover 3 sky`. */
function filmReason(answer: string | null, succeeded: boolean | null): string {
  const came = succeeded === null ? 'result not known' : succeeded ? 'success' : 'no success';
  return answer === null ? came : `${came} against ${answer}`;
}
