import { applyDecorators, Controller, Headers, Param, Post, Query, Req, Res } from '@nestjs/common';
import {
  ApiBearerAuth,
  ApiBody,
  ApiConsumes,
  ApiCreatedResponse,
  ApiOkResponse,
  ApiOperation,
  ApiTags,
} from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { creationOf, WithIdempotencyKey } from '../../common/creation.js';
import { IDEMPOTENCY_KEY } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { importFormat } from './import-format.js';
import { ChartQuery, ImportQuery, ImportResponse } from './imports.dto.js';
import { ImportsService, type ImportTarget, type ImportWishes, type IncomingFile } from './imports.service.js';

const FILE = { description: 'a sheet of plays, or records as JSON Lines', schema: { type: 'string' } } as const;

/** `POST` of a file. */
function TakesFile(path: string, summary: string): MethodDecorator {
  return applyDecorators(
    Post(path),
    ApiOperation({ summary }),
    IDEMPOTENCY_KEY,
    ApiConsumes('text/csv', 'application/x-ndjson'),
    ApiBody(FILE),
    ApiCreatedResponse({ type: ImportResponse }),
    ApiOkResponse({ type: ImportResponse, description: 'what it would make: with mode=check nothing is created' }),
  );
}

@ApiTags('Charting')
@ApiBearerAuth()
@Controller('v1')
export class ImportsController {
  constructor(private readonly imports: ImportsService) {}

  @TakesFile('imports', 'Bring in charted games: CSV of plays, or JSON Lines of players, events, games and plays')
  importArchive(
    @WithCredential() credential: Credential,
    @WithIdempotencyKey() idempotencyKey: string | null,
    @Query() query: ImportQuery,
    @Headers('content-type') contentType: string | undefined,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<ImportResponse> {
    response.status(statusOf(query));
    const file = incoming(request, contentType, idempotencyKey);
    return this.imports.importFile(credential, file, { kind: 'archive' }, wishes(query));
  }

  @TakesFile('games/:gameId/charts', 'Bring in one chart of a game; say what of the film it covers')
  importChart(
    @WithCredential() credential: Credential,
    @WithIdempotencyKey() idempotencyKey: string | null,
    @Param('gameId', UuidPipe) gameId: string,
    @Query() query: ChartQuery,
    @Headers('content-type') contentType: string | undefined,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<ImportResponse> {
    response.status(statusOf(query));
    const file = incoming(request, contentType, idempotencyKey);
    return this.imports.importFile(credential, file, chartTarget(gameId, query), wishes(query));
  }
}

function statusOf({ mode }: ImportQuery): number {
  return mode === 'check' ? 200 : 201;
}

function wishes({ mode, mapping, leftovers }: ImportQuery): ImportWishes {
  return { mode, mappingId: mapping ?? null, leftovers };
}

function incoming(request: Request, contentType: string | undefined, idempotencyKey: string | null): IncomingFile {
  const length = request.headers['content-length'];
  const format = importFormat(contentType);
  return {
    body: request,
    format,
    declaredBytes: length === undefined ? undefined : Number(length),
    creationOf: (sha256) => creationOf(idempotencyKey, request, [format, sha256.toString('hex')]),
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
