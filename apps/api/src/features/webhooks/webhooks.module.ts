import { Module } from '@nestjs/common';
import { Clock } from '../../common/clock.js';
import { FeedModule } from '../feed/feed.module.js';
import { DeliveriesController } from './deliveries.controller.js';
import { DeliveriesRepository } from './deliveries.repository.js';
import { DeliveriesService } from './deliveries.service.js';
import { DeliveryQueueRepository } from './delivery-queue.repository.js';
import { DeliveryWorker } from './delivery-worker.service.js';
import { WebhooksController } from './webhooks.controller.js';
import { WebhooksRepository } from './webhooks.repository.js';
import { WebhooksService } from './webhooks.service.js';

@Module({
  imports: [FeedModule],
  controllers: [WebhooksController, DeliveriesController],
  providers: [
    ...[WebhooksService, WebhooksRepository, DeliveriesService, DeliveriesRepository],
    ...[DeliveryWorker, DeliveryQueueRepository, Clock],
  ],
})
export class WebhooksModule {}
