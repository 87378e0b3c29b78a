import { randomBytes } from 'node:crypto';
import { uuidv7 } from 'uuidv7';
import { connected } from './connected.js';
import { hashKey } from './hash-key.js';

/** Long enough that nobody guesses one, and with a beginning by which a leaked key can be found and known. */
const KEY_PREFIX = 'rbk_';
const KEY_BYTES = 32;
const SHOWN_CHARACTERS = 10;

export interface CreatedClan {
  readonly clanId: string;
  /** The one time that the key can be seen. */
  readonly key: string;
}

/** Makes a clan with its private scope and a first key that may do everything. For the owner's command line only. */
export async function createClan(ownerUrl: string, name: string): Promise<CreatedClan> {
  const clanId = uuidv7();
  const key = `${KEY_PREFIX}${randomBytes(KEY_BYTES).toString('base64url')}`;
  await connected(ownerUrl, async (owner) => {
    await owner.query('begin');
    await owner.query('select app.create_clan($1, $2)', [clanId, name]);
    await owner.query(
      `insert into api_key (clan_id, id, name, prefix, key_hash, rights)
       values ($1, $2, 'first key', $3, $4, array['read', 'write', 'manage'])`,
      [clanId, uuidv7(), key.slice(0, SHOWN_CHARACTERS), hashKey(key)],
    );
    await owner.query('commit');
  });
  return { clanId, key };
}
