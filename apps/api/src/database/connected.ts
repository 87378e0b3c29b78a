import { Client } from 'pg';

/** Runs the work on a connection of its own and closes it, whatever happens. */
export async function connected<Result>(url: string, work: (client: Client) => Promise<Result>): Promise<Result> {
  const client = new Client({ connectionString: url, connectionTimeoutMillis: 10_000 });
  // Without a listener a connection that breaks while idle would end the process; the next query tells of it anyway.
  client.on('error', () => undefined);
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}
