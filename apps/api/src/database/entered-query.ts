import { Query, type ClientBase, type Connection, type QueryResult, type QueryResultRow } from 'pg';

/** Prepared on every connection of the service as it opens, so that entering is neither parsed nor planned again. */
const ENTERING = 'enter';

/** What a new connection waits for before `enteredQuery` can be used on it. */
export function prepareEntering(client: ClientBase): unknown {
  // Where there is no schema yet, the first statement says so better.
  return client.query(`prepare ${ENTERING} (bytea) as select from app.enter($1)`).catch(() => undefined);
}

/** A statement that each connection parses and plans once, under this name. */
export interface PreparedStatement {
  readonly name: string;
  readonly text: string;
  readonly values: unknown[];
}

/** What pg has and calls on a query; its own types leave this out. */
interface Listening {
  name: string;
  handleDataRow: (message: unknown) => void;
  handleCommandComplete: (message: unknown, connection: Connection) => void;
}

/**
 * Enters a clan and asks one statement, both in one message and one transaction that ends with it: what stands before one
 * Sync is one transaction (PostgreSQL, "Frontend/Backend Protocol", extended query, pipelining). A refused entering skips
 * the statement and fails in its place.
 */
export function enteredQuery<Row extends QueryResultRow>(
  client: ClientBase,
  keyHash: Buffer,
  { name, text, values }: PreparedStatement,
): Promise<QueryResult<Row>> {
  return new Promise((resolve, reject) => {
    // By its text, since pg copies a configuration, which takes longer than making the message.
    const query = new Query<Row>(text, values, (error, result) => {
      // Without an error there is a result, which the types cannot say.
      if (error) reject(error);
      else resolve(result);
    }) as Query<Row> & Listening;
    query.name = name;
    const { submit } = query;
    query.submit = (connection) => {
      connection.stream.cork();
      try {
        connection.bind({ statement: ENTERING, values: [keyHash] }, true);
        connection.execute({}, true);
        submit.call(query, connection);
      } finally {
        connection.stream.uncork();
      }
    };
    skipFirstCommand(query);
    client.query(query);
  });
}

/** The first command is the entering, whose one empty row is nobody's. */
function skipFirstCommand(query: Listening): void {
  const { handleDataRow, handleCommandComplete } = query;
  query.handleDataRow = () => undefined;
  query.handleCommandComplete = () => {
    query.handleDataRow = handleDataRow;
    query.handleCommandComplete = handleCommandComplete;
  };
}
