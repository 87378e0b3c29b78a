import { Module } from '@nestjs/common';
import { FeedController } from './feed.controller.js';
import { FeedRepository } from './feed.repository.js';
import { FeedService } from './feed.service.js';
import { FeedStreamsService } from './feed-streams.service.js';
import { FeedWakes } from '../../database/feed-wakes.js';

@Module({ controllers: [FeedController], providers: [FeedService, FeedStreamsService, FeedWakes, FeedRepository] })
export class FeedModule {}
