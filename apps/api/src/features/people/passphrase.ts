import { randomBytes } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { hashRaw } from '@node-rs/argon2';
import { SETTINGS, type PassphraseSettings, type Settings } from '../../config/settings.js';

const SALT_BYTES = 16;
const PROOF_BYTES = 32;
const LANES = 1;

/** How argon2id makes a proof of a passphrase. */
export interface Derivation {
  readonly salt: Buffer;
  readonly memoryKib: number;
  readonly passes: number;
  readonly lanes: number;
}

/** A derivation with what it made: to be shown to the database, which keeps a digest of it only. */
export interface Proof extends Derivation {
  readonly proof: Buffer;
}

/**
 * Passphrases by argon2id (RFC 9106), at least with the parameters of OWASP's Password Storage cheat sheet. What it makes
 * is not compared here: the database compares, so that whoever could make the service send SQL of his own still has to
 * know a passphrase.
 */
@Injectable()
export class Passphrases {
  private readonly wanted: PassphraseSettings;

  constructor(@Inject(SETTINGS) settings: Settings) {
    this.wanted = settings.passphrase;
  }

  /** A proof with a new salt, at today's cost. */
  async derive(passphrase: string): Promise<Proof> {
    const derivation = { salt: randomBytes(SALT_BYTES), ...this.wanted, lanes: LANES };
    return { ...derivation, proof: await this.prove(passphrase, derivation) };
  }

  prove(passphrase: string, { salt, memoryKib, passes, lanes }: Derivation): Promise<Buffer> {
    // The same letters can be typed as different code points (NIST SP 800-63B, 3.1.1.2). Argon2id is the default.
    return hashRaw(passphrase.normalize('NFKC'), {
      ...{ salt, memoryCost: memoryKib, timeCost: passes, parallelism: lanes, outputLen: PROOF_BYTES },
    });
  }

  /** Whether it was made at another cost than is asked for today. */
  isOutdated({ memoryKib, passes, lanes }: Derivation): boolean {
    return memoryKib !== this.wanted.memoryKib || passes !== this.wanted.passes || lanes !== LANES;
  }
}
