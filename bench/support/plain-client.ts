import { connect, type Socket } from 'node:net';

export interface PlainAnswer {
  readonly status: number;
  readonly headers: string;
}

/** Of one reading: a whole profile. */
const MOST_READ = 256 * 1024;

/**
 * Sends requests over one open connection, one after the other, as bytes: what Node's own client does for each costs as
 * much as a good part of the service.
 */
export class PlainClient {
  private readonly socket: Socket;
  /** Of the answer on its way: what came as long as its headers were not whole, then these. */
  private begun = Buffer.alloc(0);
  private headers: string | null = null;
  /** Bytes of its body that have not come. */
  private missing = 0;
  private waiting: { resolve: (answer: PlainAnswer) => void; reject: (error: Error) => void } | null = null;

  private constructor(
    { hostname, port }: URL,
    private readonly host: string,
    private readonly key: string,
  ) {
    this.socket = connect({
      host: hostname,
      port: Number(port),
      noDelay: true,
      // One piece of memory for all that comes, since nobody looks at a body.
      onread: {
        buffer: Buffer.allocUnsafe(MOST_READ),
        callback: (length, bytes) => {
          this.take(Buffer.from(bytes.buffer, bytes.byteOffset, length));
          return true;
        },
      },
    });
    this.socket.on('error', (error) => this.waiting?.reject(error));
    this.socket.on('close', () => this.waiting?.reject(new Error('the service closed the connection')));
  }

  static async to(url: string, key: string): Promise<PlainClient> {
    const address = new URL(url);
    const client = new PlainClient(address, address.host, key);
    await new Promise<void>((resolve, reject) => client.socket.once('connect', resolve).once('error', reject));
    return client;
  }

  get(path: string): Promise<PlainAnswer> {
    return this.send(`GET ${path} HTTP/1.1\r\n`, '');
  }

  post(path: string, body: string): Promise<PlainAnswer> {
    const head = `POST ${path} HTTP/1.1\r\nContent-Type: application/json\r\nContent-Length: ${Buffer.byteLength(body)}\r\n`;
    return this.send(head, body);
  }

  close(): void {
    this.waiting = null;
    this.socket.destroy();
  }

  private send(head: string, body: string): Promise<PlainAnswer> {
    return new Promise((resolve, reject) => {
      this.waiting = { resolve, reject };
      this.socket.write(`${head}Host: ${this.host}\r\nAuthorization: Bearer ${this.key}\r\n\r\n${body}`);
    });
  }

  /** Answers of the service say how long they are. */
  private take(bytes: Buffer): void {
    if (this.headers === null) {
      const begun = Buffer.concat([this.begun, bytes]);
      const end = begun.indexOf('\r\n\r\n');
      this.begun = begun;
      if (end < 0) return;
      this.begun = Buffer.alloc(0);
      this.headers = begun.toString('latin1', 0, end);
      const length = Number(/^content-length: (\d+)/im.exec(this.headers)?.[1] ?? Number.NaN);
      this.missing = end + 4 + length - begun.length;
    } else {
      this.missing -= bytes.length;
    }
    if (this.missing > 0) return;
    const headers = this.headers;
    this.headers = null;
    this.waiting?.resolve({ status: Number(headers.slice(9, 12)), headers });
    this.waiting = null;
  }
}
