/** Messages out of turn: before `initialize`, a second `initialize`, after `shutdown`. Language Server Protocol 3.17. */
import {
  type Connection,
  type ConnectionOptions,
  ErrorCodes,
  type Message,
  ResponseError,
} from 'vscode-languageserver';

/** As much of a message as says what is to be done with it. */
interface Incoming extends Message {
  readonly id?: unknown;
  readonly method?: unknown;
  readonly params?: unknown;
}

/** What a request out of turn is passed on as; `params` say why. */
const refused = 'meniscus/refused';

interface Refusal {
  readonly code: number;
  readonly message: string;
}

const tooEarly: Refusal = { code: ErrorCodes.ServerNotInitialized, message: 'The server waits for initialize.' };
const twice: Refusal = { code: ErrorCodes.InvalidRequest, message: 'The server is initialised already.' };
const tooLate: Refusal = { code: ErrorCodes.InvalidRequest, message: 'The server was shut down; it waits for exit.' };
const noObject: Refusal = { code: ErrorCodes.InvalidParams, message: 'The parameters are not as the protocol says.' };

/** Options for a connection that `serve` is given: what comes out of turn is answered with its error, or dropped. */
export function keepingTurns(): ConnectionOptions {
  let state: 'new' | 'running' | 'shut down' = 'new';

  function refusalOf({ method, params }: Incoming): Refusal | null {
    if (state === 'shut down') return tooLate;
    if (method === 'initialize') {
      if (state === 'running') return twice;
      if (!isObject(params)) return noObject;
      state = 'running';
      return null;
    }
    if (state === 'new') return tooEarly;
    if (method === 'shutdown') state = 'shut down';
    else if (String(method).startsWith('textDocument/') && !namesDocument(params)) return noObject;
    return null;
  }

  return {
    messageStrategy: {
      handleMessage(message: Incoming, next) {
        if (typeof message.method !== 'string') return next(message);
        if (message.id === undefined) {
          if (state === 'running' || message.method === 'exit') return next(message);
          return;
        }
        const refusal = refusalOf(message);
        return next(refusal ? ({ ...message, method: refused, params: refusal } as Message) : message);
      },
    },
  };
}

/** Answers what `keepingTurns` refuses. */
export function registerRefusals(connection: Connection): void {
  connection.onRequest(refused, (params: unknown) => {
    const { code, message } = (params ?? {}) as Partial<Refusal>;
    return new ResponseError(typeof code === 'number' ? code : ErrorCodes.MethodNotFound, String(message ?? refused));
  });
}

function namesDocument(params: unknown): boolean {
  return isObject(params) && isObject((params as { readonly textDocument?: unknown }).textDocument);
}

function isObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
