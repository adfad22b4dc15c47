/** Why a note that `use` or local policy names is not read. */

/** Told by whoever reads notes. */
export type Unread =
  /** No such file. */
  | 'none'
  /** A folder, or a file that is no Markdown. */
  | 'not-a-note'
  /** Not allowed, or not UTF-8. */
  | 'unreadable'
  | 'untrusted'
  | 'too-large'
  /** `..` leads out of the workspace. */
  | 'above'
  /** A link of the file system leads out of the workspace. */
  | 'link'
  /** The note that names it lies in no folder of a workspace. */
  | 'no-workspace';

/** Seen at the path itself, or at what lies behind it. */
export type Refusal = Unread | 'absolute' | 'address' | 'separator' | 'too-many' | 'too-deep';

/** Bounds of what one note may use, directly or not. */
export const USE_LIMITS = {
  notes: 50,
  depth: 10,
  /** UTF-16 units of one note; who reads from a disk takes them for bytes. */
  size: 2 * 1024 * 1024,
} as const;

/** Bounds that are met behind a note which is itself read. */
export type Beyond = 'too-many' | 'too-deep';

/** What is wrong with a path whatever lies there. */
export function refusalByShape(path: string): Refusal | null {
  if (path.startsWith('/') || path.startsWith('\\') || /^[a-z]:/i.test(path)) return 'absolute';
  if (/^[a-z][a-z\d+.-]*:/i.test(path)) return 'address';
  if (path.includes('\\')) return 'separator';
  return /\.(md|markdown)$/i.test(path) ? null : 'not-a-note';
}
