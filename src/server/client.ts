/** What the other side can do, as far as it changes what the server sends. */
import {
  type InitializeParams,
  type MarkupContent,
  MarkupKind,
  type PositionEncodingKind,
} from 'vscode-languageserver';
import type { HoverCard } from '../service/types.ts';
import { chosenEncoding } from './open-document.ts';

export interface Client {
  /** How it counts the places in a line. */
  readonly encoding: PositionEncodingKind;
  /** The folder of the findings' pages as a URI without a final slash, or null when it names none. */
  readonly docsBase: string | null;
  readonly relatedInformation: boolean;
  readonly refreshesInlayHints: boolean;
  /** It answers which policy a note has. */
  readonly knowsPolicies: boolean;
  /** It reads other notes of the workspace. */
  readonly readsNotes: boolean;
  /** It reads them, and says which there are. */
  readonly findsNotes: boolean;
  /** It asks for findings, and does not want them sent. */
  readonly pulls: boolean;
  /** It asks again when it is told to. */
  readonly refreshesFindings: boolean;
  /** It takes findings of other documents with those of the one it asked about. */
  readonly relatedFindings: boolean;
  /** It tells of changed files once it is told which. */
  readonly watchesFiles: boolean;
  /** How it shows a card. */
  readonly cards: 'pictures' | 'markdown' | 'text';
  /** Whether an edit may say which version of the note it was made for. */
  readonly versionedEdits: boolean;
  /** Whether it fills in the places of a snippet: in completion, and in edits. */
  readonly snippets: boolean;
  readonly snippetEdits: boolean;
  /** Whether an outline may have places within lines. */
  readonly nestedSymbols: boolean;
  /** Whether it asks first if there is anything to rename. */
  readonly preparesRenames: boolean;
}

/**
 * `initializationOptions` are of our own making: `docsBase`; `policy` and `usedNotes` of a client that answers
 * `meniscus/policy` and `meniscus/usedNote`; `notes` of one that answers `meniscus/notes` as well; `pictures` of one that draws the pictures of a card; `push` of one that could
 * ask for findings but takes them as they come, with those of notes that are not open.
 */
export function readClient({ capabilities, initializationOptions }: InitializeParams): Client {
  const { textDocument, workspace, general } = capabilities ?? {};
  const options: Partial<Record<string, unknown>> = initializationOptions ?? {};
  const { docsBase } = options;
  return {
    encoding: chosenEncoding(general?.positionEncodings),
    docsBase: typeof docsBase === 'string' ? docsBase.replace(/\/$/, '') : null,
    relatedInformation: textDocument?.publishDiagnostics?.relatedInformation === true,
    refreshesInlayHints: workspace?.inlayHint?.refreshSupport === true,
    knowsPolicies: options.policy === true,
    readsNotes: options.usedNotes === true,
    findsNotes: options.usedNotes === true && options.notes === true,
    pulls: typeof textDocument?.diagnostic === 'object' && options.push !== true,
    refreshesFindings: workspace?.diagnostics?.refreshSupport === true,
    relatedFindings: textDocument?.diagnostic?.relatedDocumentSupport === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    cards: cardsFor(textDocument?.hover?.contentFormat, options.pictures === true),
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    snippetEdits: workspace?.workspaceEdit?.snippetEditSupport === true,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    preparesRenames: textDocument?.rename?.prepareSupport === true,
  };
}

function cardsFor(formats: unknown, pictures: boolean): Client['cards'] {
  if (Array.isArray(formats) && !formats.includes(MarkupKind.Markdown)) return 'text';
  return pictures ? 'pictures' : 'markdown';
}

export function shownAs({ markdown, plain }: HoverCard, cards: Client['cards']): MarkupContent {
  if (cards === 'text') return { kind: MarkupKind.PlainText, value: plain.text };
  return { kind: MarkupKind.Markdown, value: cards === 'pictures' ? markdown : plain.markdown };
}
