/** Said once on every card and report: they document, and others decide. */
import type { Tree } from '../../text/tree.ts';

export const CAUTION_TEXT = 'Check against local policy and the product label before use.';

export const CAUTION: Tree = { kind: 'paragraph', inline: [{ text: CAUTION_TEXT, weight: 'quiet' }] };
