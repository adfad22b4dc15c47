/** A whole note as a page that stands by itself: no script, nothing from elsewhere but what the note itself shows. */
import MarkdownIt from 'markdown-it';
import { withoutHead } from '../markdown/index.ts';
import { NO_NOTES, type Policy, type UsedNotes } from '../note/index.ts';
import { element, markupText } from '../render/index.ts';
import { meniscusPreview } from './plugin.ts';
import { PAGE_STYLE, PREVIEW_STYLE } from './style.ts';

/** Nothing but the page's own style and the pictures that the note itself shows; it runs nothing and sends nothing. */
const SECURITY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data: file: http: https:; base-uri 'none'; form-action 'none'";
/** What may be followed from a page: the web, mail, and what lies beside it. Programs have addresses of their own. */
const FOLLOWED = /^(?:https?:|mailto:|infusion:|data:image\/|[^:]*$|[^:]*[/?#])/i;

export interface PageOptions {
  readonly policy: Policy;
  /** What other notes give to it. */
  readonly used?: UsedNotes;
  /** null: the note's first heading, else `untitled`. */
  readonly title: string | null;
  readonly untitled: string;
}

/** Raw HTML of the note is shown as the text it is. */
export function pageOf(source: string, { policy, used = NO_NOTES, title, untitled }: PageOptions): string {
  const under = { policy, used };
  const md = new MarkdownIt({ html: false, linkify: false });
  md.use(meniscusPreview, { workedUnder: () => under });
  const isValid = md.validateLink;
  md.validateLink = (address) => isValid(address) && FOLLOWED.test(address.trim());
  const tokens = md.parse(withoutHead(source), {});
  const first = tokens.findIndex(({ type }) => type === 'heading_open');
  const heading = first < 0 ? '' : plainText(tokens[first + 1]?.children ?? []);
  const head = [
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="${markupText(SECURITY)}">`,
    element('title', {}, markupText(title ?? (heading || untitled))),
    element('style', {}, `\n${PAGE_STYLE}${PREVIEW_STYLE}`),
  ];
  const body = element('main', {}, `\n${md.renderer.render(tokens, md.options, {})}`);
  return `<!DOCTYPE html>\n<html lang="en">\n<head>\n${head.join('\n')}\n</head>\n<body class="meniscus-page">\n${body}\n</body>\n</html>\n`;
}

function plainText(tokens: readonly { readonly type: string; readonly content: string }[]): string {
  return tokens
    .map(({ type, content }) => (type === 'text' || type === 'code_inline' ? content : type === 'softbreak' ? ' ' : ''))
    .join('')
    .trim();
}
