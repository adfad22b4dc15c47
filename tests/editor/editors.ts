/** The editors in which the suite runs: each opens a folder of notes, with the tests inside or with a note to look at. */
import type { Page } from 'playwright-core';
import type { CachedEditor } from '../../scripts/editor/cached-editor.ts';
import { startCodeServer } from '../../scripts/editor/code-server.ts';
import { type Host, startHost } from '../../scripts/editor/host.ts';
import { editorIn } from '../../scripts/editor/window.ts';

export interface Editor {
  /** With a module that is run in the extension host, in a window that trusts the folder or does not. */
  inside(folder: string, tests: string, trusted: boolean): Promise<Host>;
  /** With a note of the folder open. */
  outside(folder: string, note: string): Promise<Host>;
  /** Puts the preview beside the note. */
  settle(page: Page): Promise<void>;
}

/** VS Code 1.91 in the browser: the browser build. */
export const webEditor: Editor = {
  inside: (folder, tests, trusted) => startHost({ folder, tests, trusted, port: 0 }),
  outside: (folder, note) => startHost({ folder, note, port: 0 }),
  settle: async () => {},
};

/** Today's VS Code as a server: the Node build, inside from the checkout, outside from the package. */
export function nodeEditor(editor: CachedEditor, vsix: string): Editor {
  return {
    inside: (folder, tests, trusted) => startCodeServer(editor, { folder, tests, trusted }),
    outside: (folder, note) => startCodeServer(editor, { folder, note, package: vsix }),
    async settle(page) {
      // Its keys are known once its extensions run.
      await editorIn(page)
        .getByText(/=\s\d+\smL/)
        .first()
        .waitFor();
      await editorIn(page).locator('.view-line').first().click();
      await page.keyboard.press('Control+K');
      await page.keyboard.press('v');
      await page.locator('iframe.webview').first().waitFor();
    },
  };
}
