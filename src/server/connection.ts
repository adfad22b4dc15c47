/** The Language Server Protocol in and out: one connection, one note service, the open notes. No Node, no worker. */
import {
  type Connection,
  type Hover,
  type InitializeResult,
  type InlayHint,
  Position,
  type PublishDiagnosticsParams,
  Range,
  type TextDocumentContentChangeEvent,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Closure, Policy } from '../note/index.ts';
import { formularyDiagnostics } from '../service/index.ts';
import type { Diagnostic, NoteService, WorkedNote } from '../service/types.ts';
import { type Client, readClient, shownAs } from './client.ts';
import { codeActionCapabilities, registerCodeActions } from './code-actions.ts';
import { completionCapabilities, registerCompletion } from './completion.ts';
import { registerFormatting } from './formatting.ts';
import { registerRefusals } from './lifecycle.ts';
import { navigationCapabilities, registerNavigation } from './navigation.ts';
import { OpenDocument } from './open-document.ts';
import type { OpenNote } from './open-notes.ts';
import { clientPolicySource, isPolicy, NotePolicies, policyChanged } from './policies.ts';
import { registerPull } from './pull.ts';
import { toHint, toProtocol, toRange } from './shown.ts';
import { registerUpdates } from './updates.ts';
import { clientNoteSource, NotesInUse } from './used-notes.ts';
import { registerWorksheet } from './worksheet.ts';
import { NO_FILES, type Workspace, type WorkspaceFiles, WorkspaceFolders, watchFiles } from './workspace.ts';
import { registerWorkspaceCheck } from './workspace-check.ts';
import { clientNoteFinder, WorkspaceNotes } from './workspace-notes.ts';

/** How long typing must rest before a changed note's findings are shown, in milliseconds. */
const typingRest = 150;

interface Worked {
  readonly version: number;
  readonly policy: Policy;
  readonly closure: Closure;
  readonly note: WorkedNote;
}

/** What the server has around it where it runs. */
export interface Surroundings {
  /** The folder of the findings' pages, for clients that name none. */
  readonly docsBase?: string;
  /** Reads policies and other notes for clients that do not; without it there are none for them. */
  files?(workspace: Workspace): WorkspaceFiles;
}

/**
 * Answers on `connection` with what `service` knows, until the connection ends.
 *
 * A client that asks for findings gets them when it asks; to others they are pushed once typing rests, carry the version
 * they were made from and are dropped when a newer one has come in the meantime; those shown before stay until then. A
 * request about a note that is not open, or at no position, is answered with null. Policies that are open or in use get
 * findings of their own. Local policy and other notes come from the client where it reads them, else from
 * `surroundings.files`.
 */
export function serve(connection: Connection, service: NoteService, surroundings: Surroundings = {}): void {
  const notes = new TextDocuments<OpenDocument>({ create: newDocument, update: updated });
  const worked = new Map<string, Worked>();
  const folders = new WorkspaceFolders();
  const files = surroundings.files?.({ folders: () => folders.all, open: () => notes.all() }) ?? NO_FILES;
  let policySource = files.find;
  let noteSource = files.read;
  /** Whether the server itself reads what a client would. */
  let readsFiles = false;
  const policies = new NotePolicies({ find: (uri) => policySource(uri) });
  const used = new NotesInUse({ read: (from, path) => noteSource(from, path) }, files.addressOf, service);
  const workspaceNotes = new WorkspaceNotes(
    clientNoteFinder(connection),
    { read: (from, path) => noteSource(from, path) },
    () => ({ open: notes.keys(), folders: folders.all }),
  );
  const resting = new Map<string, ReturnType<typeof setTimeout>>();
  const published = new Map<string, readonly Diagnostic[]>();
  let client: Client = readClient({ processId: null, rootUri: null, capabilities: {} });
  let policyRest: ReturnType<typeof setTimeout> | undefined;

  function newDocument(uri: string, languageId: string, version: number, text: string): OpenDocument {
    return new OpenDocument(uri, languageId, version, text, client.encoding);
  }

  function updated(document: OpenDocument, changes: TextDocumentContentChangeEvent[], version: number): OpenDocument {
    // What is known of a version that comes again, with another text, holds no longer.
    if (version <= document.version) {
      worked.delete(document.uri);
      used.forget(document.uri);
    }
    document.update(changes, version);
    return document;
  }

  function work(document: TextDocument, policy: Policy, closure: Closure): WorkedNote {
    const known = worked.get(document.uri);
    if (known?.version === document.version && known.policy === policy && known.closure === closure) return known.note;
    const note = service.work(document.uri, document.getText(), policy, closure);
    worked.set(document.uri, { version: document.version, policy, closure, note });
    return note;
  }

  /** The open note of that address, worked out; null when there is none, or it is closed while what it rests on is read. */
  async function openNoteAt(uri: string): Promise<OpenNote | null> {
    const document = notes.get(uri);
    if (!document || isPolicy(uri)) return null;
    for (;;) {
      const under = await policies.of(uri);
      if (notes.get(uri) !== document) return null;
      const reading = used.of(document, under);
      const closure = await reading;
      if (notes.get(uri) !== document) return null;
      if (used.of(document, under) === reading) return { document, note: work(document, under.policy, closure) };
    }
  }

  /** Of a note that is not open; nothing of it is kept. */
  async function findingsOfClosed(uri: string, text: string): Promise<readonly Diagnostic[]> {
    const under = await policies.of(uri);
    const closure = await used.of(newDocument(uri, 'markdown', 0, text), under);
    const found = service.work(uri, text, under.policy, closure).diagnostics();
    if (!notes.get(uri)) {
      service.forget(uri);
      policies.forget(uri);
      used.forget(uri);
    }
    return found;
  }

  function checkAfter(delay: number, document: TextDocument): void {
    clearTimeout(resting.get(document.uri));
    resting.set(
      document.uri,
      setTimeout(() => void check(document), delay),
    );
  }

  /** A note has changed: the open notes that use it are checked again. `text`: null where it is not known. */
  function checkUsersAfter(delay: number, uri: string, text: string | null): void {
    for (const user of used.changed(uri, text)) {
      const document = notes.get(user);
      if (!document || user === uri) continue;
      if (client.pulls) pull.refresh(delay);
      else checkAfter(delay, document);
    }
  }

  /** Works the note out, then lets waiting messages in: when one has brought a newer version, this result falls. */
  async function check(document: TextDocument): Promise<void> {
    const { uri, version } = document;
    const asked = policies.of(uri);
    const overtaken = () => notes.get(uri) !== document || document.version !== version || policies.of(uri) !== asked;
    try {
      const under = await asked;
      if (overtaken()) return;
      const reading = used.of(document, under);
      const closure = await reading;
      const stale = () => overtaken() || used.of(document, under) !== reading;
      if (stale()) return;
      const goOn = () => new Promise<boolean>((decide) => afterWaitingMessages(() => decide(!stale())));
      if (!(await service.prepare(uri, document.getText(), under.policy, closure, goOn))) return;
      const found = work(document, under.policy, closure).diagnostics();
      afterWaitingMessages(() => {
        if (stale()) return;
        publish(document, found);
        publishPolicies();
        if (client.refreshesInlayHints) void connection.languages.inlayHint.refresh();
      });
    } catch (error) {
      connection.console.error(`${uri}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
    }
  }

  function findingsOfPolicy(uri: string, text: string): readonly Diagnostic[] {
    const file = policies.read(uri, text);
    const formulary = used.formularyOf(uri);
    return [...file.diagnostics, ...formularyDiagnostics(file, (path) => formulary.get(path) ?? null)];
  }

  /** Findings of the policies that are open or in use; those of others are taken back. */
  function publishPolicies(): void {
    if (client.pulls) return;
    const open = notes.all().filter(({ uri }) => isPolicy(uri));
    const shown = new Map(policies.inUse().map(({ uri, text }) => [uri, newDocument(uri, 'json', 0, text)]));
    for (const document of open) shown.set(document.uri, document);
    for (const [uri, document] of shown) {
      const diagnostics = findingsOfPolicy(uri, document.getText());
      if (JSON.stringify(published.get(uri)) === JSON.stringify(diagnostics)) continue;
      published.set(uri, diagnostics);
      publish(document, diagnostics);
    }
    for (const uri of published.keys()) {
      if (shown.has(uri)) continue;
      published.delete(uri);
      policies.close(uri);
      push({ uri, diagnostics: [] });
    }
  }

  /** A policy has changed, come or gone: which notes it is for is asked anew, and each is checked again. */
  function checkAllAfter(delay: number): void {
    clearTimeout(policyRest);
    policyRest = setTimeout(() => {
      policies.askAnew();
      used.askAnew();
      if (client.pulls) return pull.refresh(0);
      publishPolicies();
      for (const document of notes.all()) if (!isPolicy(document.uri)) void check(document);
    }, delay);
  }

  function publish(document: TextDocument, found: readonly Diagnostic[]): void {
    const diagnostics = found.map((finding) => toProtocol(finding, document, client));
    const version = notes.get(document.uri) === document ? { version: document.version } : {};
    push({ uri: document.uri, ...version, diagnostics });
  }

  /** A client that asks for findings is not sent any. */
  function push(params: PublishDiagnosticsParams): void {
    if (!client.pulls) void connection.sendDiagnostics(params);
  }

  const initialized: (() => void)[] = [];
  const formatting = registerFormatting({ connection, openNoteAt, whenInitialized: (then) => initialized.push(then) });
  const pull = registerPull({
    connection,
    documents: notes,
    openNoteAt,
    client: () => client,
    policyOf: async (uri) => {
      const at = (await policies.of(uri)).uri;
      return policies.inUse().find((policy) => policy.uri === at) ?? null;
    },
    findingsOfPolicy,
    toProtocol: (finding, document) => toProtocol(finding, document, client),
  });

  connection.onInitialize((params): InitializeResult => {
    const known = readClient(params);
    client = { ...known, docsBase: known.docsBase ?? surroundings.docsBase ?? null };
    // Here, because the library has come to listen to the same message by now.
    folders.follow(connection, () => checkAllAfter(0));
    if (client.knowsPolicies) policySource = clientPolicySource(connection).find;
    if (client.readsNotes) noteSource = clientNoteSource(connection).read;
    readsFiles = files !== NO_FILES && !(client.knowsPolicies && client.readsNotes);
    if (readsFiles && client.watchesFiles) initialized.push(() => watchFiles(connection));
    workspaceNotes.asks = client.findsNotes;
    return {
      serverInfo: { name: 'Meniscus' },
      capabilities: {
        positionEncoding: client.encoding,
        textDocumentSync: TextDocumentSyncKind.Incremental,
        hoverProvider: true,
        inlayHintProvider: true,
        ...codeActionCapabilities,
        ...pull.capabilities(),
        ...folders.read(params),
        ...formatting(params),
        ...completionCapabilities,
        ...navigationCapabilities(client),
      },
    };
  });

  notes.onDidChangeContent(({ document }) => {
    if (isPolicy(document.uri)) checkAllAfter(published.has(document.uri) ? typingRest : 0);
    else {
      if (!client.pulls) checkAfter(worked.has(document.uri) ? typingRest : 0, document);
      checkUsersAfter(typingRest, document.uri, document.getText());
    }
  });

  // Who saves may have changed other files as well, and nobody tells.
  notes.onDidSave(() => {
    if (readsFiles && !client.watchesFiles) checkAllAfter(typingRest);
  });

  notes.onDidClose(({ document }) => {
    if (isPolicy(document.uri)) return checkAllAfter(0);
    clearTimeout(resting.get(document.uri));
    resting.delete(document.uri);
    worked.delete(document.uri);
    service.forget(document.uri);
    policies.forget(document.uri);
    used.forget(document.uri);
    checkUsersAfter(0, document.uri, null);
    push({ uri: document.uri, version: document.version, diagnostics: [] });
    publishPolicies();
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    if (changes.some(({ uri }) => isPolicy(uri))) checkAllAfter(0);
    for (const { uri } of changes) {
      if (isPolicy(uri)) continue;
      workspaceNotes.changed(uri);
      checkUsersAfter(0, uri, null);
    }
  });

  connection.onNotification(policyChanged, () => checkAllAfter(0));

  connection.onInitialized(() => {
    for (const then of initialized) then();
  });

  connection.onHover(async ({ textDocument, position }): Promise<Hover | null> => {
    const found = Position.is(position) ? await openNoteAt(textDocument.uri) : null;
    if (!found) return null;
    const { document, note } = found;
    const card = note.hover(document.offsetAt(position));
    if (!card) return null;
    return { contents: shownAs(card, client.cards), range: toRange(card.span, document) };
  });

  connection.languages.inlayHint.on(async ({ textDocument, range }): Promise<InlayHint[] | null> => {
    const found = Range.is(range) ? await openNoteAt(textDocument.uri) : null;
    if (!found) return null;
    const { document, note } = found;
    const span = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
    return note.results(span).map((result) => toHint(result, document));
  });

  const openNotes = { at: openNoteAt, uris: () => notes.keys() };
  registerCompletion({
    connection,
    openNotes,
    snippets: () => client.snippets,
    pathsFrom: (uri, token) => workspaceNotes.pathsFrom(uri, token),
  });
  registerCodeActions({
    connection,
    openNotes,
    client: () => client,
    toProtocol: (finding, document) => toProtocol(finding, document, client),
  });
  registerNavigation({
    connection,
    openNotes,
    client: () => client,
    closedNotes: (token) => workspaceNotes.closed(token),
  });
  registerWorksheet({ connection, openNoteAt, policyOf: (uri) => policies.of(uri) });
  registerWorkspaceCheck({
    connection,
    isOpen: (uri) => notes.get(uri) !== undefined,
    find: findingsOfClosed,
    publish: (uri, text, found) => publish(newDocument(uri, 'markdown', 0, text), found),
  });
  registerRefusals(connection);
  registerUpdates({ connection, openNoteAt });

  notes.listen(connection);
  connection.listen();
}

/** Runs `then` once what has already arrived is read: in Node that takes the event loop one full turn. */
function afterWaitingMessages(then: () => void): void {
  if (typeof setImmediate === 'function') setImmediate(() => setImmediate(then));
  else setTimeout(then, 0);
}
