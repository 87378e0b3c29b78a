import { Connection, Query, type ClientBase, type QueryResult, type QueryResultRow } from 'pg';

/*
 * What opens and ends a transaction goes out with the statement beside it under one Sync: PostgreSQL answers each Sync by
 * itself, and every answer is one more time that both sides wake up. A statement that fails skips those behind it.
 * See "Frontend/Backend Protocol", extended query, pipelining.
 */

export const BEGINNINGS = {
  read: 'begin isolation level repeatable read read only',
  write: 'begin isolation level read committed',
} as const;

/** Prepared on every connection of the service as it opens, so that they are neither parsed nor planned again. */
const ENTERING = 'enter';
const COMMITTING = 'commit';

/** What a new connection waits for before it can be asked in one message. */
export function prepareMessages(client: ClientBase): unknown {
  return prepare(client);
}

async function prepare(client: ClientBase): Promise<void> {
  for (const beginning of Object.values(BEGINNINGS)) {
    // PREPARE takes no BEGIN and no COMMIT; asked by a name, they are prepared all the same.
    await client.query({ name: beginning, text: beginning });
    await client.query({ name: COMMITTING, text: COMMITTING });
  }
  // Where there is no schema yet, the first statement says so better.
  await client.query(`prepare ${ENTERING} (bytea) as select from app.enter($1)`).catch(() => undefined);
}

/** A statement that each connection parses and plans once, under this name. */
export interface PreparedStatement {
  readonly name: string;
  readonly text: string;
  readonly values: unknown[];
}

/** Whether statements go out before the answers to those ahead of them; set while nothing is under way. */
export function setPipeline(client: ClientBase, pipeline: boolean): void {
  Object.assign(client, { pipeline });
}

/** What goes out before the work waits for its first answer goes out as one: sending is the dearest part of it. */
export function gatherMessages(client: ClientBase): void {
  if (!('connection' in client) || !(client.connection instanceof Connection)) return;
  const { stream } = client.connection;
  stream.cork();
  process.nextTick(() => {
    stream.uncork();
  });
}

/** Begins a transaction and asks its first statement. */
export function beginningQuery<Row extends QueryResultRow>(
  client: ClientBase,
  mode: keyof typeof BEGINNINGS,
  statement: PreparedStatement,
): Promise<QueryResult<Row>> {
  return submitted(client, statement, ({ query, submit }) => {
    query.submit = (connection) => {
      execute(connection, BEGINNINGS[mode], []);
      submit(connection);
    };
    skipFirstCommand(query);
  });
}

/**
 * Enters a clan and asks one statement in a transaction that ends with it: what stands before one Sync is one
 * transaction. A refused entering fails in the statement's place.
 */
export function enteredQuery<Row extends QueryResultRow>(
  client: ClientBase,
  keyHash: Buffer,
  statement: PreparedStatement,
): Promise<QueryResult<Row>> {
  return submitted(client, statement, ({ query, submit }) => {
    query.submit = (connection) => {
      parseFirst(connection, query, statement);
      execute(connection, ENTERING, [keyHash]);
      submit(connection);
    };
    skipFirstCommand(query);
  });
}

/** One statement, which is a transaction by itself. */
export function singleQuery<Row extends QueryResultRow>(
  client: ClientBase,
  statement: PreparedStatement,
): Promise<QueryResult<Row>> {
  return submitted(client, statement, ({ query, submit }) => {
    query.submit = submit;
  });
}

/** Asks the last statement of a transaction and commits. Where it fails, the transaction has still to be ended. */
export async function committingQuery(client: ClientBase, statement: PreparedStatement): Promise<void> {
  await submitted(client, statement, ({ query, submit }) => {
    query.submit = (connection) => {
      const sync = connection.sync.bind(connection);
      connection.sync = () => {
        execute(connection, COMMITTING, []);
        sync();
      };
      try {
        submit(connection);
      } finally {
        Reflect.deleteProperty(connection, 'sync');
      }
    };
  });
}

/**
 * Ahead of the entering, whose refusal would skip it: the next in the pipeline goes out without, since pg takes a
 * statement that was sent for one that is known.
 */
function parseFirst(connection: Connection, query: Listening, { name, text }: PreparedStatement): void {
  if (query.hasBeenParsed(connection)) return;
  connection.parse({ name, text, types: [] }, true);
  (connection as Parsing).submittedNamedStatements[name] = text;
}

function execute(connection: Connection, statement: string, values: Buffer[]): void {
  connection.bind({ statement, values }, true);
  connection.execute({}, true);
}

/** What pg has and calls on a query; its own types leave this out. */
interface Listening {
  name: string;
  hasBeenParsed: (connection: Connection) => boolean;
  handleDataRow: (message: unknown) => void;
  handleCommandComplete: (message: unknown, connection: Connection) => void;
}

interface Submitting {
  readonly query: Query & Listening;
  /** What pg would send. */
  readonly submit: (connection: Connection) => void;
}

/** Where pg keeps what was sent to be parsed and is not answered yet; its own types leave this out. */
type Parsing = Connection & { readonly submittedNamedStatements: Record<string, string> };

/** A query that is sent as `change` has made it, in one write. */
function submitted<Row extends QueryResultRow>(
  client: ClientBase,
  { name, text, values }: PreparedStatement,
  change: (submitting: Submitting) => void,
): Promise<QueryResult<Row>> {
  return new Promise((resolve, reject) => {
    // By its text, since pg copies a configuration, which takes longer than making the message.
    const query = new Query<Row>(text, values, (error, result) => {
      // Without an error there is a result, which the types cannot say.
      if (error) reject(error);
      else resolve(result);
    }) as Query<Row> & Listening;
    query.name = name;
    const submit = query.submit.bind(query);
    change({ query, submit });
    const changed = query.submit;
    query.submit = (connection) => {
      connection.stream.cork();
      try {
        changed(connection);
      } finally {
        connection.stream.uncork();
      }
    };
    client.query(query);
  });
}

/** The first command is the one ahead, whose answer is nobody's. */
function skipFirstCommand(query: Listening): void {
  const { handleDataRow, handleCommandComplete } = query;
  query.handleDataRow = () => undefined;
  query.handleCommandComplete = () => {
    query.handleDataRow = handleDataRow;
    query.handleCommandComplete = handleCommandComplete;
  };
}
