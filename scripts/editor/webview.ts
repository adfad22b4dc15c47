/**
 * VS Code isolates each webview (the Markdown preview is one) on a subdomain of its own, which one address on the
 * loopback interface cannot offer. Its page is served with one change: a parent of the page's own origin is let in.
 */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';

/** The changed page, its script's hash in the content security policy made anew. */
export async function webviewPage(original: string): Promise<string> {
  const html = await readFile(original, 'utf8');
  const check = 'const hostname = location.hostname;';
  const script = scriptOf(html);
  const changed = script.replace(check, `${check}\nif (parentOrigin === location.origin) return start(parentOrigin);`);
  const page = html.replace(script, () => changed).replace(digest(script), digest(changed));
  if (changed === script || !page.includes(digest(changed))) throw new Error(`${original} is not as it was expected.`);
  return page;
}

function scriptOf(html: string): string {
  return html.match(/<script async type="module">([\s\S]*?)<\/script>/)?.[1] ?? '';
}

function digest(script: string): string {
  return `'sha256-${createHash('sha256').update(script).digest('base64')}'`;
}
