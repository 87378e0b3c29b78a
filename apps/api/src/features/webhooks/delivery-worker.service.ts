import {
  Inject,
  Injectable,
  Logger,
  type BeforeApplicationShutdown,
  type OnApplicationBootstrap,
} from '@nestjs/common';
import { Clock } from '../../common/clock.js';
import { SETTINGS, type Settings } from '../../config/settings.js';
import { DELIVERIES, Wakes } from '../../database/wakes.js';
import { DeliveryQueueRepository, type Outcome, type TakenDelivery } from './delivery-queue.repository.js';
import { postMessage, type Answer } from './post-message.js';
import { retryDelay } from './retry-schedule.js';

const AT_ONCE = 20;
/** Longer than an attempt can take, so that it ends under a worker that died and under no other. */
const LEASE_SECONDS = 60;
/** After the database could not be asked. */
const TRY_AGAIN_MS = 5_000;
/** What is due and yet was not taken is locked for a moment, by somebody who changes the webhook. */
const SHORTEST_TIMER_MS = 250;
const LONGEST_TIMER_MS = 2_147_483_647;
const GONE = 410;

/**
 * Sends what is due. Woken by the database when something is queued, and by a timer when the next attempt is due: nothing
 * is asked for in between. Any number of processes do so side by side.
 */
@Injectable()
export class DeliveryWorker implements OnApplicationBootstrap, BeforeApplicationShutdown {
  private readonly log = new Logger(DeliveryWorker.name);
  private readonly underWay = new Set<Promise<void>>();
  private looking: Promise<void> | null = null;
  private again = false;
  private stopped = false;
  private timer: NodeJS.Timeout | undefined;
  private sleep = (): void => undefined;

  constructor(
    private readonly queue: DeliveryQueueRepository,
    private readonly wakes: Wakes,
    private readonly clock: Clock,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    const wake = (): void => void this.wake();
    this.sleep = await this.wakes.subscribe(DELIVERIES, wake);
    wake();
  }

  /** What is on its way arrives and is written down; what waits is left to the next process. */
  async beforeApplicationShutdown(): Promise<void> {
    this.stopped = true;
    this.sleep();
    clearTimeout(this.timer);
    await this.looking;
    await Promise.all(this.underWay);
  }

  /** Looks for what is due, once more where it is looking already; done when nothing due is left and nothing under way. */
  async wake(): Promise<void> {
    this.again = true;
    do {
      this.looking ??= this.look().finally(() => {
        this.looking = null;
      });
      await this.looking;
      await Promise.all(this.underWay);
    } while (this.hasMore());
  }

  private hasMore(): boolean {
    return (this.again || this.underWay.size > 0) && !this.stopped;
  }

  private async look(): Promise<void> {
    while (this.again && !this.stopped) {
      this.again = false;
      clearTimeout(this.timer);
      try {
        const room = AT_ONCE - this.underWay.size;
        const taken = room > 0 ? await this.queue.take(this.clock.now(), LEASE_SECONDS, room) : [];
        for (const delivery of taken) this.start(delivery);
        // With every place taken, whichever delivery ends first looks again.
        if (this.underWay.size < AT_ONCE) this.sleepUntil(await this.queue.nextDue());
      } catch (error) {
        this.log.warn({ deliveriesNotRead: error instanceof Error ? error.message : String(error) });
        this.sleepFor(TRY_AGAIN_MS);
      }
    }
  }

  private sleepUntil(due: Date | null): void {
    if (due !== null) this.sleepFor(due.getTime() - this.clock.now().getTime());
  }

  private sleepFor(milliseconds: number): void {
    if (this.stopped) return;
    this.timer = setTimeout(
      () => void this.wake(),
      Math.min(Math.max(milliseconds, SHORTEST_TIMER_MS), LONGEST_TIMER_MS),
    ).unref();
  }

  private start(delivery: TakenDelivery): void {
    const sending = this.deliver(delivery)
      .catch((error: unknown) => {
        // Its lease ends, and it is sent once more.
        this.log.warn({
          deliveryNotSettled: delivery.id,
          error: error instanceof Error ? error.message : String(error),
        });
      })
      .finally(() => {
        this.underWay.delete(sending);
        void this.wake();
      });
    this.underWay.add(sending);
  }

  private async deliver(delivery: TakenDelivery): Promise<void> {
    const { id, url, body, seconds, signature } = delivery;
    const headers = {
      'Content-Type': 'application/json',
      'User-Agent': 'roundbook',
      'webhook-id': id,
      'webhook-timestamp': seconds,
      'webhook-signature': signature,
    };
    const answer = await postMessage({ url, headers, body }, this.settings.webhookPrivateAddresses);
    const now = this.clock.now();
    await this.queue.settle(delivery, now, outcomeOf(answer, delivery.attempts, now));
  }
}

/** What follows from an answer (Standard Webhooks 1.0.0, "Delivery success and failure"). */
function outcomeOf(answer: Answer, attempts: number, now: Date): Outcome {
  const { status } = answer;
  if (status !== null && status >= 200 && status < 300) {
    return { state: 'delivered', status, problem: null, dueAt: null, ends: null };
  }
  const problem = answer.status === null ? answer.problem : problemOf(answer.status);
  if (status === GONE) return { state: 'failed', status, problem, dueAt: null, ends: 'receiver gone' };
  const delay = retryDelay(attempts, answer.status === null ? 0 : answer.retryAfterMs, Math.random());
  if (delay === null) return { state: 'failed', status, problem, dueAt: null, ends: 'schedule used up' };
  return { state: 'waiting', status, problem, dueAt: new Date(now.getTime() + delay), ends: null };
}

function problemOf(status: number): string {
  return status >= 300 && status < 400
    ? 'the receiver sends on to elsewhere, which is not followed'
    : `answered ${status}`;
}
