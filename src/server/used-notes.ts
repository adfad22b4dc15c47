/** Which notes each open note draws on: asked of the client where it reads them, else read in its workspace. */
import type { Connection } from 'vscode-languageserver';
import type { Closure, NoteAnswer, Target, Unread } from '../note/index.ts';
import { type NoteSource, readClosure } from '../service/index.ts';
import type { NoteService } from '../service/types.ts';
import type { NotePolicy } from './policies.ts';

/** The server asks the client: `{ from, path }`, `from` a note's or policy's URI → `{ uri, text }`, or `{ why }`. */
const usedNote = 'meniscus/usedNote';

/** What a client may give for its reason. */
const UNREAD: ReadonlySet<unknown> = new Set<Unread>([
  'none',
  'not-a-note',
  'unreadable',
  'untrusted',
  'too-large',
  'above',
  'link',
  'no-workspace',
]);

export function clientNoteSource(connection: Connection): NoteSource {
  return {
    async read(from, path) {
      try {
        return answerOf(await connection.sendRequest(usedNote, { from, path }));
      } catch (error) {
        connection.console.error(`${from}: the note ‘${path}’ could not be asked for: ${error}`);
        return { why: 'unreadable' };
      }
    },
  };
}

function answerOf(found: unknown): NoteAnswer {
  const { uri, text, why } = (found ?? {}) as { uri?: unknown; text?: unknown; why?: unknown };
  if (typeof uri === 'string' && typeof text === 'string') return { at: uri, text };
  return { why: UNREAD.has(why) ? (why as Unread) : 'unreadable' };
}

interface OpenNote {
  readonly uri: string;
  readonly version: number;
  getText(): string;
}

/** A question that was asked; `answer` null until it has come. */
interface Question {
  readonly asked: Promise<NoteAnswer>;
  answer: NoteAnswer | null;
}

interface Reading {
  readonly version: number;
  readonly of: NotePolicy;
  readonly read: Promise<Closure>;
  closure: Closure | null;
}

/** The notes that open notes draw on, each asked for once until it may have changed. */
export class NotesInUse {
  private questions = new Map<string, Question>();
  private readonly readings = new Map<string, Reading>();

  /** `addressOf` gives one spelling for each address, as `source` uses it; `service` knows the open notes. */
  constructor(
    private readonly source: NoteSource,
    private readonly addressOf: (uri: string) => string,
    private readonly service: Pick<NoteService, 'uses'>,
  ) {}

  /** The same promise while the note, its policy and what it draws on are the same. */
  of(note: OpenNote, policy: NotePolicy): Promise<Closure> {
    const known = this.readings.get(note.uri);
    if (known?.version === note.version && known.of.policy === policy.policy && known.of.uri === policy.uri) {
      return known.read;
    }
    const formulary = policy.uri === null ? null : { at: policy.uri, paths: policy.policy.formulary };
    const text = note.getText();
    const source = { read: (from: string, path: string) => this.ask(from, path) };
    const uses = this.service.uses(note.uri, text);
    const read = readClosure({ at: this.addressOf(note.uri), text }, formulary, source, uses);
    const reading: Reading = { version: note.version, of: policy, read, closure: null };
    this.readings.set(note.uri, reading);
    void read.then((closure) => {
      reading.closure = closure;
    });
    return read;
  }

  /** What the formulary of a policy leads to, as far as a note that is open has read it. */
  formularyOf(policyUri: string): ReadonlyMap<string, Target> {
    for (const { of, closure } of this.readings.values()) if (of.uri === policyUri && closure) return closure.formulary;
    return new Map();
  }

  /**
   * A note was written, or, where `text` is null, may have come, gone or changed on the disk. Gives the open notes whose
   * reading no longer holds.
   */
  changed(uri: string, text: string | null): readonly string[] {
    const at = this.addressOf(uri);
    let stale = false;
    for (const [key, { answer }] of this.questions) {
      const holds = answer && ('why' in answer ? text !== null : answer.at !== at || answer.text === text);
      if (holds) continue;
      this.questions.delete(key);
      stale = true;
    }
    if (!stale) return [];
    const again: string[] = [];
    for (const [note, { closure }] of this.readings) {
      if (closure && !closure.notes.has(at) && !(text === null && lacks(closure))) continue;
      this.readings.delete(note);
      again.push(note);
    }
    return again;
  }

  askAnew(): void {
    this.questions = new Map();
    this.readings.clear();
  }

  /** A note is closed. */
  forget(uri: string): void {
    this.readings.delete(uri);
  }

  private ask(from: string, path: string): Promise<NoteAnswer> {
    const key = `${from}\n${path}`;
    const known = this.questions.get(key);
    if (known) return known.asked;
    const question: Question = { asked: this.source.read(from, path), answer: null };
    this.questions.set(key, question);
    void question.asked.then((answer) => {
      question.answer = answer;
    });
    return question.asked;
  }
}

/** Whether a note is named somewhere that is not there. */
function lacks({ targets, formulary, notes }: Closure): boolean {
  const all = [targets, formulary, ...[...notes.values()].map((note) => note.targets)];
  return all.some((some) => [...some.values()].some((target) => 'why' in target));
}
