import { Inject, Injectable } from '@nestjs/common';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import { ApiError } from '../../common/problems.js';
import { SETTINGS, type Settings } from '../../config/settings.js';
import { hashKey } from '../../database/hash-key.js';

/** Who guesses from one address tries several names; who works beside others there seldom fails so often. */
const NAMES_AN_ADDRESS = 10;

/**
 * How often a passphrase may be guessed: for each name, whether anybody has it or not, and from each address. In the memory
 * of this process, like the limit of requests. An attempt counts when it begins, so that many at once count too.
 */
@Injectable()
export class SignInLimit {
  private readonly ofName: RateLimiterMemory;
  private readonly ofAddress: RateLimiterMemory;

  constructor(@Inject(SETTINGS) { signInFailures, signInWindowSeconds }: Settings) {
    const duration = signInWindowSeconds;
    this.ofName = new RateLimiterMemory({ keyPrefix: 'name', points: signInFailures, duration });
    this.ofAddress = new RateLimiterMemory({
      ...{ keyPrefix: 'address', points: NAMES_AN_ADDRESS * signInFailures, duration },
    });
  }

  /**
   * @param signInName - normalised; empty for who has none, of whom there is nothing to guess
   * @param attempt - rejects for a wrong passphrase; what it rejects with is passed on
   * @throws ApiError `request.too_many`
   */
  async guard<Result>(signInName: string, address: string, attempt: () => Promise<Result>): Promise<Result> {
    if (signInName === '') return attempt();
    const name = hashKey(signInName).toString('base64');
    // The address first: one that has used its failures up must not fill the memory with invented names.
    await take(this.ofAddress, address);
    await take(this.ofName, name);
    const result = await attempt();
    await this.ofName.delete(name);
    // No more than this attempt: somebody with an account of his own must not clear what he guessed at others'.
    await this.ofAddress.reward(address);
    return result;
  }
}

async function take(limiter: RateLimiterMemory, by: string): Promise<void> {
  try {
    await limiter.consume(by);
  } catch (refused) {
    if (!(refused instanceof RateLimiterRes)) throw refused;
    const retryAfterSeconds = Math.max(1, Math.ceil(refused.msBeforeNext / 1000));
    const told = `signing in failed too often; try again in ${retryAfterSeconds} s`;
    throw new ApiError('request.too_many', told, { retryAfterSeconds });
  }
}
