import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiExtraModels, ApiOkResponse, ApiOperation, ApiTags, getSchemaPath } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { ApiError } from '../../common/problems.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { filmVtt } from '../../rendering/film-vtt.js';
import { filmPage } from '../../rendering/page/film-page.js';
import { filmEntries, type FilmEntry } from '../../rendering/report-film.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { FilmQuery, FilmResponse } from './film.dto.js';
import { pageFrame, sendAs } from '../../common/page-policy.js';
import { RoundReportsService } from './round-reports.service.js';
import { WITHHELD } from '../../rendering/report-names.js';

const TYPES = ['application/json', 'text/html', 'text/vtt'] as const;

@ApiTags('Scouting')
@ApiBearerAuth()
@Controller('v1/round-reports/:reportId/film')
export class FilmController {
  constructor(private readonly reports: RoundReportsService) {}

  @Get()
  @Needs('profiles')
  @ApiOperation({
    summary: 'What to watch, the most telling first: JSON, links, or a WebVTT track of one game, as Accept asks',
  })
  @ApiExtraModels(FilmResponse)
  @ApiOkResponse({
    description: 'the plays to watch; a WebVTT track has one cue a play',
    content: {
      'application/json': { schema: { $ref: getSchemaPath(FilmResponse) } },
      'text/html': { schema: { type: 'string' } },
      'text/vtt': { schema: { type: 'string' } },
    },
  })
  async film(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Query() { game }: FilmQuery,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, TYPES);
    const { report, names, film } = await this.reports.readFilm(credential, reportId);
    const entries = filmEntries(report, names, film).filter(({ gameId }) => game === undefined || gameId === game);
    const frame = pageFrame('any');
    const page = (): string => filmPage(entries, report, names.player(report.playerId) ?? WITHHELD, frame);
    sendAs(response, type, filmBody(entries, type, page), frame);
  }
}

function filmBody(
  entries: readonly FilmEntry[],
  type: (typeof TYPES)[number],
  page: () => string,
): FilmResponse | string {
  switch (type) {
    case 'text/vtt':
      return filmVtt(ofOneGame(entries));
    case 'text/html':
      return page();
    case 'application/json':
      return { film: [...entries] };
  }
}

/** A track belongs to one video: times of two would be read as times of one. */
function ofOneGame(entries: readonly FilmEntry[]): readonly FilmEntry[] {
  const games = [...new Set(entries.map(({ gameId }) => gameId))];
  if (games.length <= 1) return entries;
  throw new ApiError('request.invalid', 'a WebVTT track is of one game, and this film is of several', {
    errors: [{ field: 'game', found: '', expected: `one of ${games.join(', ')}` }],
  });
}
