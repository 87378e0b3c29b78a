import { Module } from '@nestjs/common';
import { FeedController } from './feed.controller.js';
import { FeedRepository } from './feed.repository.js';
import { FeedService } from './feed.service.js';
import { FeedStreamsService } from './feed-streams.service.js';

@Module({
  controllers: [FeedController],
  providers: [FeedService, FeedStreamsService, FeedRepository],
  exports: [FeedService],
})
export class FeedModule {}
