/** One event of a stream of server-sent events, as far as our own streams use the format. */
export interface SentEvent {
  readonly id: string;
  readonly event: string;
  readonly data: unknown;
}

/** A client that follows a stream; it never connects anew by itself, so that a test decides when. */
export class EventSourceClient {
  private readonly waiting: SentEvent[] = [];
  private text = '';
  /** What it would send as Last-Event-ID. */
  lastEventId = '';

  private constructor(private readonly reader: ReadableStreamDefaultReader<Uint8Array>) {}

  /** Connected, and told where it stands. */
  static async open(url: string, headers: Readonly<Record<string, string>>): Promise<EventSourceClient> {
    const response = await fetch(url, { headers: { Accept: 'text/event-stream', ...headers } });
    if (!response.ok || response.body === null) throw new Error(`${response.status}: ${await response.text()}`);
    expect(response.headers.get('content-type')).toBe('text/event-stream; charset=utf-8');
    const client = new EventSourceClient(response.body.getReader());
    while (client.lastEventId === '') if (!(await client.read())) throw new Error('the stream ended at once');
    return client;
  }

  /** The next event, however long it takes; null when the stream has ended. */
  async next(): Promise<SentEvent | null> {
    for (;;) {
      const event = this.waiting.shift();
      if (event !== undefined) return event;
      if (!(await this.read())) return null;
    }
  }

  async close(): Promise<void> {
    await this.reader.cancel();
  }

  private async read(): Promise<boolean> {
    const { done, value } = await this.reader.read();
    if (done) return false;
    this.text += new TextDecoder().decode(value, { stream: true });
    const blocks = this.text.split('\n\n');
    this.text = blocks.pop() ?? '';
    for (const block of blocks) this.take(block);
    return true;
  }

  private take(block: string): void {
    const fields = new Map(
      block.split('\n').map((line): [string, string] => {
        const colon = line.indexOf(':');
        return [line.slice(0, colon), line.slice(colon + 1).replace(/^ /, '')];
      }),
    );
    const id = fields.get('id');
    if (id !== undefined) this.lastEventId = id;
    const data = fields.get('data');
    if (data !== undefined) {
      this.waiting.push({ id: this.lastEventId, event: fields.get('event') ?? 'message', data: JSON.parse(data) });
    }
  }
}
