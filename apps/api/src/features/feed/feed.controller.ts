import { Controller, Get, Headers, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiHeader, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { printed } from '../../common/printed.js';
import { ApiError } from '../../common/problems.js';
import { ReadsPage } from '../../common/resource.decorators.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { FeedStreamsService } from './feed-streams.service.js';
import { FeedEntryResponse, FeedPage, FeedQuery, FeedStreamQuery } from './feed.dto.js';
import { FeedService } from './feed.service.js';

const STREAM = 'text/event-stream';

@ApiTags('Live')
@ApiBearerAuth()
@Controller('v1/feed')
export class FeedController {
  constructor(
    private readonly feed: FeedService,
    private readonly streams: FeedStreamsService,
  ) {}

  @ReadsPage('', FeedPage, FeedEntryResponse, 'What changed in brackets, in the order in which it did')
  list(@WithCredential() credential: Credential, @Query() query: FeedQuery): Promise<FeedPage> {
    return this.feed.list(credential, query);
  }

  @Get('stream')
  @ApiOperation({ summary: 'The same as server-sent events, as it happens' })
  @ApiHeader({ name: 'Last-Event-ID', required: false, description: 'the sequence of the last entry that you have' })
  @ApiOkResponse({
    description: 'an event an entry, named after its kind, with its sequence as id and the entry as data',
    content: {
      [STREAM]: {
        schema: { type: 'string' },
        example: `id: 42\nevent: bracket.changed\ndata: {"sequence": 42, "kind": "bracket.changed"}\n\n`,
      },
    },
  })
  async stream(
    @WithCredential() credential: Credential,
    @Query() { eventId, after }: FeedStreamQuery,
    @Headers('last-event-id') lastEventId: string | undefined,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    accepted(request, [STREAM]);
    // What a client says that connects anew holds, over the address that it connected to at first.
    const has = lastEventId === undefined ? sequenceIn('after', after) : sequenceIn('Last-Event-ID', lastEventId);
    await this.streams.follow(credential, response, await this.feed.position(credential, eventId, has));
  }
}

function sequenceIn(field: string, text: string | undefined): number | null {
  if (text === undefined) return null;
  if (/^\d{1,15}$/.test(text)) return Number(text);
  throw new ApiError('request.invalid', 'that is no place in the feed', {
    errors: [{ field, found: printed(text), expected: 'the sequence of an entry, or 0' }],
  });
}
