/** Why another note is not read, in words that `use` and the formulary of local policy share. */
import { type Refusal, USE_LIMITS } from '../note/index.ts';

export const REFUSALS: Record<Refusal, string> = {
  none: 'No note is found there.',
  'not-a-note': 'That is no Markdown note; its name would end in .md.',
  unreadable: 'It cannot be read as a text.',
  untrusted: 'Other notes are not read until this workspace is trusted.',
  separator: 'Folders in a path are parted by /.',
  absolute: 'It does not begin at the folder of this file.',
  address: 'It is an address, and nothing is fetched from elsewhere.',
  above: 'It leads out of the workspace.',
  link: 'What lies there is a link that leads out of the workspace.',
  'no-workspace': 'This file lies in no folder of a workspace, so no other note is read for it.',
  'too-many': `A note uses at most ${USE_LIMITS.notes} others, those that they use counted in.`,
  'too-deep': `Notes that use each other are followed ${USE_LIMITS.depth} deep.`,
  'too-large': `A note that is used has at most ${USE_LIMITS.size / 1024 / 1024} MB.`,
};
