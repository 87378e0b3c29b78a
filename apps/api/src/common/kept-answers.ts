import { Injectable } from '@nestjs/common';
import { CODE_VERSION } from '../config/code-version.js';
import { etagOf, matchesTag } from './etag.js';
import type { TaggedAnswer } from './tagged-answer.js';

/** Dashboards ask for the same few answers again and again. */
const MOST_KEPT = 128;

/** Answers by the name of everything that they were computed from: only what neither the client nor we have is computed. */
@Injectable()
export class KeptAnswers {
  /** By tag, so that whatever changes an answer also leaves its old body behind. */
  private readonly kept = new Map<string, Buffer>();

  /**
   * @param inputs  - all that goes into the answer beside the code, as plain data, the question's own name among it; who
   *   may read it is asked before
   * @param heldTag - of what the client has
   * @param compute - the answer as data, as the text that was asked for, or as the bytes that go out
   */
  async answer(
    inputs: readonly unknown[],
    heldTag: string | undefined,
    compute: () => Promise<object | string>,
  ): Promise<TaggedAnswer> {
    const etag = etagOf([CODE_VERSION, ...inputs]);
    if (heldTag !== undefined && matchesTag(heldTag, etag)) return { etag, body: null };
    const kept = this.kept.get(etag);
    if (kept !== undefined) return { etag, body: kept };
    const answer = await compute();
    const body = Buffer.isBuffer(answer)
      ? answer
      : Buffer.from(typeof answer === 'string' ? answer : JSON.stringify(answer));
    const [oldest] = this.kept.keys();
    if (this.kept.size >= MOST_KEPT && oldest !== undefined) this.kept.delete(oldest);
    this.kept.set(etag, body);
    return { etag, body };
  }
}
