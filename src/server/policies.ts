/** Which policy each open note has: asked of the client where it knows, else looked for in the folders of its workspace. */
import type { Connection } from 'vscode-languageserver';
import { DEFAULT_POLICY, type Policy } from '../note/index.ts';
import { POLICY_FILE, type PolicyFile, readPolicyFile } from '../service/index.ts';

/** A policy file as it stands now, in an open editor or else on the disk. */
export interface FoundPolicy {
  readonly uri: string;
  readonly text: string;
}

export interface PolicySource {
  /** The nearest one in or above the note's folder; null where there is none. Never fails. */
  find(noteUri: string): Promise<FoundPolicy | null>;
}

/** What a note is worked out under. */
export interface NotePolicy {
  readonly policy: Policy;
  /** Where it lies; null for the default. */
  readonly uri: string | null;
}

/** The client tells the server that policies may be others than before: a folder came, trust was given. */
export const policyChanged = 'meniscus/policyChanged';
/** The server asks the client: `{ uri }` of a note → `{ uri, text }` of its policy, or null. */
const policyOf = 'meniscus/policy';

export function clientPolicySource(connection: Connection): PolicySource {
  return {
    async find(uri) {
      try {
        const found: unknown = await connection.sendRequest(policyOf, { uri });
        return isFound(found) ? { uri: found.uri, text: found.text } : null;
      } catch (error) {
        connection.console.error(`${uri}: its policy could not be asked for: ${error}`);
        return null;
      }
    },
  };
}

function isFound(found: unknown): found is FoundPolicy {
  const { uri, text } = (found ?? {}) as Partial<FoundPolicy>;
  return typeof uri === 'string' && typeof text === 'string';
}

export function isPolicy(uri: string): boolean {
  return uri.endsWith(`/${POLICY_FILE}`);
}

/** The policies of the open notes, each asked for once until it may have changed. */
export class NotePolicies {
  private answers = new Map<string, Promise<NotePolicy>>();
  private readonly found = new Map<string, FoundPolicy>();
  private readonly files = new Map<string, { readonly text: string; readonly file: PolicyFile }>();

  constructor(private readonly source: PolicySource) {}

  /** The same promise until `askAnew`. */
  of(noteUri: string): Promise<NotePolicy> {
    const known = this.answers.get(noteUri);
    if (known) return known;
    const asked: Promise<NotePolicy> = this.source.find(noteUri).then((found) => {
      if (this.answers.get(noteUri) === asked) this.keep(noteUri, found);
      if (!found) return { policy: DEFAULT_POLICY, uri: null };
      return { policy: this.read(found.uri, found.text).policy, uri: found.uri };
    });
    this.answers.set(noteUri, asked);
    return asked;
  }

  /** A policy file's text; the same text gives the same policy. */
  read(uri: string, text: string): PolicyFile {
    const known = this.files.get(uri);
    if (known?.text === text) return known.file;
    const file = readPolicyFile(text);
    this.files.set(uri, { text, file });
    return file;
  }

  /** Policy files of open notes, each once, as they were last found. */
  inUse(): readonly FoundPolicy[] {
    return [...new Map([...this.found.values()].map((found) => [found.uri, found])).values()];
  }

  askAnew(): void {
    this.answers = new Map();
  }

  /** A note is closed. */
  forget(noteUri: string): void {
    this.answers.delete(noteUri);
    this.found.delete(noteUri);
  }

  /** A policy file is neither open nor in use any more. */
  close(uri: string): void {
    this.files.delete(uri);
  }

  private keep(noteUri: string, found: FoundPolicy | null): void {
    if (found) this.found.set(noteUri, found);
    else this.found.delete(noteUri);
  }
}
