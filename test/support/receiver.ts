import { createServer, type IncomingHttpHeaders, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface Received {
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** What is answered to a message; nothing for one that is left waiting. */
export type Reply = (response: ServerResponse, received: Received) => void;

export const answering =
  (status: number, headers: Readonly<Record<string, string>> = {}): Reply =>
  (response) =>
    response.writeHead(status, headers).end();

/** Somebody who is told by webhooks. */
export class Receiver {
  readonly received: Received[] = [];
  reply: Reply = answering(204);
  private readonly waiting: (() => void)[] = [];

  private constructor(private readonly server: Server) {}

  static async open(): Promise<Receiver> {
    const server = createServer();
    const receiver = new Receiver(server);
    server.on('request', (request, response) => {
      let body = '';
      request.setEncoding('utf8');
      request.on('data', (chunk: string) => (body += chunk));
      request.once('end', () => {
        const received = { headers: request.headers, body };
        receiver.received.push(received);
        receiver.reply(response, received);
        for (const go of receiver.waiting.splice(0)) go();
      });
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    return receiver;
  }

  get url(): string {
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}/told`;
  }

  /** Until so many messages have come. */
  async count(wanted: number): Promise<void> {
    while (this.received.length < wanted) await new Promise<void>((resolve) => this.waiting.push(resolve));
  }

  async close(): Promise<void> {
    this.server.closeAllConnections();
    await new Promise((resolve) => this.server.close(resolve));
  }
}
