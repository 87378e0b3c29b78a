import { Pool, types, type CustomTypesConfig } from 'pg';
import { prepareMessages } from './one-message.js';

export interface PoolSettings {
  readonly poolSize: number;
  readonly statementTimeoutMs: number;
  readonly idleInTransactionTimeoutMs: number;
}

/** How long a request waits for a free connection before it is told that the service is busy. */
const WAIT_FOR_CONNECTION_MS = 10_000;

const PLANNING = [
  // Aggregates here take milliseconds: starting workers for them costs more than it saves (1.8 to 3 times slower).
  'max_parallel_workers_per_gather=0',
  'jit=off',
  // Planning joins under their policies takes longer than running them (2 of 2.4 ms for a player's charts), and their
  // texts are few. PostgreSQL would plan anew for every array, which it takes to be longer than ours are.
  'plan_cache_mode=force_generic_plan',
  // What is asked for is in memory or on a drive without heads; at the default of 4, thousands of rows are read for two.
  'random_page_cost=1.1',
];

/** The connections of the service's role. */
export function createServicePool(serviceUrl: string, settings: PoolSettings): Pool {
  const pool = new Pool({
    connectionString: serviceUrl,
    max: settings.poolSize,
    statement_timeout: settings.statementTimeoutMs,
    idle_in_transaction_session_timeout: settings.idleInTransactionTimeoutMs,
    connectionTimeoutMillis: WAIT_FOR_CONNECTION_MS,
    application_name: 'roundbook',
    options: PLANNING.map((setting) => `-c ${setting}`).join(' '),
    types: { getTypeParser },
    onConnect: prepareMessages,
  });
  // An idle connection that breaks is replaced by the pool; unheard, its error would end the process.
  pool.on('error', () => undefined);
  // The same for one that breaks under a request, which the pool leaves to whoever took it: the request's next query
  // fails, and the connection is thrown away then.
  pool.on('connect', (client) => client.on('error', () => undefined));
  return pool;
}

/** A date has no time and no zone; pg's own reading makes it midnight where the server stands. */
const getTypeParser: CustomTypesConfig['getTypeParser'] = (id, format): unknown =>
  id === types.builtins.DATE ? (text: string) => text : types.getTypeParser(id, format);
