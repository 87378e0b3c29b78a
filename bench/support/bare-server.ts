import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Pool } from 'pg';

/** The least that could answer one row: one query on a pool, its row as JSON. */
const pool = new Pool({ connectionString: process.env['DATABASE_URL'], max: 10 });
pool.on('error', () => undefined);

const server = createServer((incoming, outgoing) => {
  const id = incoming.url?.slice(1);
  void pool
    .query({
      name: 'player',
      text: `select p.id, p.handle,
                    coalesce((select jsonb_agg(a.alias order by a.normalised_alias) from player_alias a
                               where a.clan_id = p.clan_id and a.player_id = p.id), '[]') as aliases,
                    p.linked_player_id as "linkedPlayerId", p.link_certain as "linkCertain", p.source_id as "sourceId",
                    true as own
               from player p where p.id = $1`,
      values: [id],
    })
    .then(({ rows }) => {
      outgoing.setHeader('Content-Type', 'application/json').end(JSON.stringify(rows[0]));
    });
});

process.once('SIGTERM', () => {
  server.close();
  server.closeAllConnections();
  void pool.end();
});

server.listen(0, '127.0.0.1', () => {
  const { port } = server.address() as AddressInfo;
  process.stdout.write(`answers at http://127.0.0.1:${port},\n`);
});
