/** The other end of a language server, as plain as the protocol allows: framed JSON in, framed JSON out, no library. */
import type { Readable, Writable } from 'node:stream';

export interface Message {
  readonly id?: number | string | null;
  readonly method?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

export interface Published {
  readonly uri: string;
  readonly version?: number;
  readonly diagnostics: readonly {
    readonly code: string;
    readonly message: string;
    readonly severity: number;
    readonly source: string;
    readonly range: Range;
    readonly codeDescription?: { readonly href: string };
    readonly relatedInformation?: readonly { readonly message: string }[];
  }[];
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export class JsonRpcClient {
  readonly received: Message[] = [];
  private readonly waiting = new Set<() => void>();
  private pending = Buffer.alloc(0);
  private lastId = 0;
  private readonly answers = new Map<string, (params: unknown) => unknown>();

  constructor(
    private readonly toServer: Writable,
    fromServer: Readable,
  ) {
    fromServer.on('data', (chunk: Buffer) => this.read(chunk));
  }

  /** Says hello with the given capabilities and options, and answers with what the server can do. */
  async initialize(capabilities: object = {}, initializationOptions: object = {}): Promise<Record<string, unknown>> {
    const params = { processId: null, rootUri: null, capabilities, initializationOptions };
    const { result } = await this.request('initialize', params);
    this.notify('initialized', {});
    return (result as { capabilities: Record<string, unknown> }).capabilities;
  }

  open(uri: string, text: string, version = 1): void {
    this.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'markdown', version, text } });
  }

  change(uri: string, version: number, text: string): void {
    this.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ text }] });
  }

  hover(uri: string, position: Position): Promise<Message> {
    return this.request('textDocument/hover', { textDocument: { uri }, position });
  }

  request(method: string, params?: object): Promise<Message> {
    this.lastId += 1;
    const id = this.lastId;
    this.send({ jsonrpc: '2.0', id, method, params });
    return this.until((message) => message.id === id && message.method === undefined);
  }

  notify(method: string, params?: object): void {
    this.send({ jsonrpc: '2.0', method, params });
  }

  send(message: unknown): void {
    this.sendText(JSON.stringify(message));
  }

  /** Answers what the server asks by that method, from now on. */
  answer(method: string, result: (params: unknown) => unknown): void {
    this.answers.set(method, result);
  }

  /** Any body in a right frame. */
  sendText(body: string): void {
    this.toServer.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  /** The first message that fits, whether it has come already or is still to come. */
  async until(fits: (message: Message) => boolean): Promise<Message> {
    for (;;) {
      const found = this.received.find(fits);
      if (found) return found;
      await new Promise<void>((resolve) => this.waiting.add(resolve));
    }
  }

  async published(uri: string, version: number): Promise<Published> {
    const fits = (message: Message): boolean => isPublished(message, uri) && message.params?.version === version;
    return (await this.until(fits)).params as unknown as Published;
  }

  /** All that was published about a note so far, oldest first. */
  allPublished(uri: string): readonly Published[] {
    return this.received
      .filter((message) => isPublished(message, uri))
      .map(({ params }) => params as unknown as Published);
  }

  private async reply({ id, method = '', params }: Message): Promise<void> {
    const answer = this.answers.get(method);
    if (answer && id !== undefined) this.send({ jsonrpc: '2.0', id, result: await answer(params) });
  }

  private read(chunk: Buffer): void {
    this.pending = Buffer.concat([this.pending, chunk]);
    for (;;) {
      const head = this.pending.indexOf('\r\n\r\n');
      if (head < 0) return;
      const length = Number(/Content-Length: (\d+)/i.exec(this.pending.toString('latin1', 0, head))?.[1]);
      const end = head + 4 + length;
      if (this.pending.length < end) return;
      const message: Message = JSON.parse(this.pending.toString('utf8', head + 4, end));
      this.received.push(message);
      void this.reply(message);
      this.pending = this.pending.subarray(end);
      for (const wake of this.waiting) wake();
      this.waiting.clear();
    }
  }
}

function isPublished(message: Message, uri: string): boolean {
  return message.method === 'textDocument/publishDiagnostics' && message.params?.uri === uri;
}
