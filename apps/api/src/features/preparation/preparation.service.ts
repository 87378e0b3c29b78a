import { Injectable } from '@nestjs/common';
import { changedCells, MOST_CHANGES } from '#domain/call-sheet/call-sheet.js';
import type { CallSheet } from '#domain/call-sheet/call-sheet-shape.js';
import { byTurns } from '#domain/reports/by-turns.js';
import { forkPlan, preparationShares, type OpponentBrief } from '#domain/reports/next-opponents.js';
import { counted } from '#domain/tendencies/words/count-words.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import { changeWords } from '../../rendering/call-sheet-words.js';
import { placeIn } from '../../rendering/report-film.js';
import type { ReportNames } from '../../rendering/report-names.js';
import type { Credential } from '../access/credential.js';
import { CallSheetsService } from '../call-sheets/call-sheets.service.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { FilmNamesService } from '../round-reports/film-names.service.js';
import { NextOpponentsService } from '../round-reports/next-opponents.service.js';
import type { BriefClipResponse, NextOpponentsQuery, NextOpponentsResponse } from './preparation.dto.js';

/** The next match in a few minutes: the shortest form of the reports and of the call sheets, with a plan for the time. */
@Injectable()
export class PreparationService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly next: NextOpponentsService,
    private readonly sheets: CallSheetsService,
    private readonly films: FilmNamesService,
  ) {}

  read(
    credential: Credential,
    eventId: string,
    { player, minutes, lean }: NextOpponentsQuery,
  ): Promise<NextOpponentsResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      const us = await this.players.require(db, player);
      const next = await this.next.find(db, eventId, us.identity);
      const { candidates, certain, match } = next;
      const opponents = await this.players.requireAll(
        db,
        candidates.map(({ playerId }) => playerId),
      );
      const briefs = await this.next.briefs(db, eventId, match.roundName, opponents);
      const sheets = await this.sheets.against(db, us, opponents, lean);
      const changes = byTurns(
        sheets.map((sheet, of) =>
          changedCells(sheet).map((changed) => ({
            against: opponents[of]?.identity ?? '',
            words: changeWords(changed),
          })),
        ),
      ).slice(0, MOST_CHANGES);
      const shares = preparationShares(candidates.map(({ probability }) => probability));
      const plan = forkPlan(
        briefs.map(({ facts, clips }, at) => ({ share: shares[at] ?? 0, facts: facts.length, clips: clips.length })),
        minutes,
      );
      const charts = new Set(briefs.flatMap(({ clips }) => clips.map(({ play }) => play.chartId)));
      const { names } = await this.films.of(db, { players: [], events: [], games: [], charts: [...charts] });
      return {
        eventId,
        playerId: us.identity,
        round: match.roundName,
        certain,
        minutes,
        opponents: candidates.map((candidate, at) => {
          const brief = briefs[at] ?? { facts: [], clips: [], openings: [], notKnown: [] };
          const watched = plan.filter((step) => step.candidate === at).reduce((sum, step) => sum + step.clips, 0);
          return {
            ...candidate,
            share: shares[at] ?? 0,
            facts: [...brief.facts],
            clips: brief.clips.slice(0, watched).map((clip) => clipResponse(clip, names)),
            openings: [...brief.openings],
            notKnown: [...brief.notKnown],
          };
        }),
        others: Math.max(0, 1 - candidates.reduce((sum, { probability }) => sum + probability, 0)),
        changes,
        plan: plan.map(({ fromMinute, minutes: takes, candidate, what, clips }) => ({
          fromMinute,
          minutes: takes,
          words:
            candidate === null
              ? lastWords(changes.length, sheets.some(hasCalls))
              : planWords(what, candidates[candidate]?.handle ?? '', clips),
        })),
      };
    });
  }
}

function clipResponse(
  { play, gameId, second, reason }: OpponentBrief['clips'][number],
  names: ReportNames,
): BriefClipResponse {
  const place = placeIn(names.video(play.chartId), second);
  return {
    gameId,
    chartId: play.chartId,
    playNumber: play.playNumber,
    second: place.second,
    url: place.address,
    reason,
  };
}

function planWords(what: string, handle: string, clips: number): string {
  return clips === 0 ? `${what} on ${handle}` : `watch ${counted(clips, 'clip')} of ${handle}`;
}

function hasCalls({ offense, defense }: CallSheet): boolean {
  return [...offense.cells, ...defense.cells].some(({ calls }) => calls.length > 0);
}

function lastWords(changes: number, hasSheet: boolean): string {
  if (!hasSheet) return 'choose calls for where they were weak: no sheet can be made of your menu';
  if (changes === 0) return 'go through the base sheet: no change of it is worth making';
  return changes === 1 ? 'take in the change to the sheet' : `take in the ${changes} changes to the sheet`;
}
