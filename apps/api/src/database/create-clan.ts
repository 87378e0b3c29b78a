import { uuidv7 } from 'uuidv7';
import { connected } from './connected.js';
import { newSecret } from './new-secret.js';

export interface CreatedClan {
  readonly clanId: string;
  /** The one time that the key can be seen. */
  readonly key: string;
}

/** Makes a clan with its private scope and a first key that may do everything. For the owner's command line only. */
export async function createClan(ownerUrl: string, name: string): Promise<CreatedClan> {
  const clanId = uuidv7();
  const key = newSecret('key');
  await connected(ownerUrl, async (owner) => {
    await owner.query('begin');
    await owner.query('select app.create_clan($1, $2)', [clanId, name]);
    await owner.query(
      `insert into api_key (clan_id, id, name, prefix, key_hash, rights)
       values ($1, $2, 'first key', $3, $4, array['read', 'write', 'manage'])`,
      [clanId, uuidv7(), key.prefix, key.digest],
    );
    await owner.query('commit');
  });
  return { clanId, key: key.text };
}
