/** What a note in the preview is worked out under. Drawing does not wait: it is found beside, and the note then drawn again. */
import * as vscode from 'vscode';
import { type Closure, NoteLibrary } from '../note/index.ts';
import { BY_DEFAULT, type Under } from '../preview/plugin.ts';
import { type NoteSource, readClosure, readPolicyFile } from '../service/index.ts';
import type { LeadsOut } from './links.ts';
import { policyOf } from './policy.ts';
import { usedNote } from './used-notes.ts';

interface Known extends Under {
  /** The text it was found for. */
  readonly source: string;
  /** The same as long as the policy and the notes that are used say the same. */
  readonly drawnOn: string;
  /** Addresses of the notes that are used, its own left out. */
  readonly notes: ReadonlySet<string>;
}

const sourceOf = (leadsOut: LeadsOut): NoteSource => ({
  async read(from, path) {
    const found = await usedNote(vscode.Uri.parse(from), path, leadsOut);
    return 'why' in found ? (found as { why: 'unreadable' }) : { at: found.uri.toString(), text: found.text };
  },
});

export class PreviewSurroundings {
  private readonly library = new NoteLibrary();
  private known = new Map<string, Known>();
  private readonly source: NoteSource;

  constructor(private readonly leadsOut: LeadsOut) {
    this.source = sourceOf(leadsOut);
  }

  of(note: vscode.Uri | null, source: string): Under {
    if (!note) return BY_DEFAULT;
    const known = this.known.get(note.toString());
    if (known?.source !== source) void this.find(note, source, this.known);
    return known ?? BY_DEFAULT;
  }

  /** Whether a preview draws on that note. */
  uses(note: vscode.Uri): boolean {
    return [...this.known.values()].some(({ notes }) => notes.has(note.toString()));
  }

  askAgain(): void {
    if (this.known.size === 0) return;
    this.known = new Map();
    refresh();
  }

  private async find(note: vscode.Uri, source: string, into: Map<string, Known>): Promise<void> {
    const key = note.toString();
    const before = into.get(key) ?? { ...BY_DEFAULT, drawnOn: '', notes: new Set<string>() };
    into.set(key, { ...before, source });
    const found = await policyOf(note, this.leadsOut);
    const under = found ? readPolicyFile(found.text).policy : BY_DEFAULT.policy;
    const formulary = found ? { at: found.uri.toString(), paths: under.formulary } : null;
    const closure = await readClosure({ at: key, text: source }, formulary, this.source);
    const drawnOn = JSON.stringify([found?.text ?? '', ...contentsOf(closure)]);
    if (into !== this.known || into.get(key)?.source !== source || drawnOn === before.drawnOn) return;
    const used = this.library.usedIn(closure, under);
    const notes = new Set([...closure.notes.keys()].filter((at) => at !== key));
    into.set(key, { policy: under, used, source, drawnOn, notes });
    refresh();
  }
}

/** Which paths lead where, and what stands there; the note's own text left out. */
function contentsOf({ at, targets, formulary, notes }: Closure): readonly unknown[] {
  const others = [...notes.values()].filter(({ note }) => note.at !== at);
  return [[...targets], [...formulary], others.map(({ note }) => [note.at, note.text])];
}

function refresh(): void {
  void vscode.commands.executeCommand('markdown.preview.refresh');
}
