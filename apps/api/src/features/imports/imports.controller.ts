import { Controller, Headers, Param, Post, Query, Req } from '@nestjs/common';
import { ApiBearerAuth, ApiBody, ApiConsumes, ApiCreatedResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request } from 'express';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { importFormat } from './import-format.js';
import { ChartQuery, ImportQuery, ImportResponse } from './imports.dto.js';
import { ImportsService, type ImportTarget, type ImportWishes, type IncomingFile } from './imports.service.js';

const FILE = { description: 'a sheet of plays, or records as JSON Lines', schema: { type: 'string' } } as const;

@ApiTags('Charting')
@ApiBearerAuth()
@Controller('v1')
export class ImportsController {
  constructor(private readonly imports: ImportsService) {}

  @Post('imports')
  @ApiOperation({ summary: 'Bring in charted games: CSV of plays, or JSON Lines of players, events, games and plays' })
  @ApiConsumes('text/csv', 'application/x-ndjson')
  @ApiBody(FILE)
  @ApiCreatedResponse({ type: ImportResponse })
  importArchive(
    @WithCredential() credential: Credential,
    @Query() query: ImportQuery,
    @Headers('content-type') contentType: string | undefined,
    @Req() request: Request,
  ): Promise<ImportResponse> {
    return this.imports.importFile(credential, incoming(request, contentType), { kind: 'archive' }, wishes(query));
  }

  @Post('games/:gameId/charts')
  @ApiOperation({ summary: 'Bring in one chart of a game; say what of the film it covers' })
  @ApiConsumes('text/csv', 'application/x-ndjson')
  @ApiBody(FILE)
  @ApiCreatedResponse({ type: ImportResponse })
  importChart(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
    @Query() query: ChartQuery,
    @Headers('content-type') contentType: string | undefined,
    @Req() request: Request,
  ): Promise<ImportResponse> {
    return this.imports.importFile(
      credential,
      incoming(request, contentType),
      chartTarget(gameId, query),
      wishes(query),
    );
  }
}

function wishes({ mode, mapping, leftovers }: ImportQuery): ImportWishes {
  return { mode, mappingId: mapping ?? null, leftovers };
}

function incoming(request: Request, contentType: string | undefined): IncomingFile {
  const length = request.headers['content-length'];
  return {
    body: request,
    format: importFormat(contentType),
    declaredBytes: length === undefined ? undefined : Number(length),
  };
}

function chartTarget(gameId: string, query: ChartQuery): ImportTarget {
  return {
    kind: 'chart',
    gameId,
    facts: {
      reference: query.chart,
      ...(query.chartedBy === undefined ? {} : { chartedBy: query.chartedBy }),
      filmScope: {
        offense: query.offense ?? null,
        downs: query.downs?.split(',').map(Number) ?? null,
        quarters: query.quarters?.split(',').map(Number) ?? null,
        fields: query.fields?.split(',') ?? null,
      },
    },
  };
}
