/** Finding one's way about the window of VS Code in the browser, for tests and pictures. */
import type { FrameLocator, Locator, Page } from 'playwright-core';

/** The first editor of the window. */
export function editorIn(page: Page): Locator {
  return page.locator('.monaco-editor[data-uri]').first();
}

/** The document that the Markdown preview shows. */
export async function previewIn(page: Page): Promise<FrameLocator> {
  return page.frameLocator('iframe.webview').first().frameLocator('#active-frame');
}

/** A card that has not come up after so many milliseconds, on a busy machine, is asked for once more. */
const PATIENCE = 10_000;

/** Moves the pointer over `word` in the first visible line that holds `lineText`, and waits for the card. */
export async function hoverCard(page: Page, lineText: string, word: string, tries = 3): Promise<Locator> {
  const card = page.locator('.monaco-hover:not(.hidden)').first();
  await page.mouse.move(0, 0);
  await card.waitFor({ state: 'hidden' });
  const { x, y } = await middleOf(editorIn(page).locator('.view-line', { hasText: lineText }).first(), word);
  await page.mouse.move(x, y, { steps: 4 });
  try {
    await card.locator('.hover-contents').first().waitFor({ timeout: PATIENCE });
    return card;
  } catch (error) {
    if (tries <= 1) throw error;
    return hoverCard(page, lineText, word, tries - 1);
  }
}

/** Puts the cursor at the start of a line, counted from 1, and that line in the middle of the editor. */
export async function goToLine(page: Page, line: number): Promise<void> {
  await editorIn(page).locator('textarea.inputarea').focus();
  await page.keyboard.press('Control+G');
  const input = page.locator('.quick-input-box input').first();
  await input.fill(`:${line}`);
  await input.press('Enter');
  await input.waitFor({ state: 'hidden' });
}

/** The middle of a word on the screen; a line's text is one element or many, as its colours have it. */
function middleOf(line: Locator, word: string): Promise<{ readonly x: number; readonly y: number }> {
  return line.evaluate((element, wanted) => {
    const page = element.ownerDocument;
    const range = page.createRange();
    const start = element.textContent.indexOf(wanted);
    const end = start + wanted.length;
    const texts = page.createTreeWalker(element, 4);
    for (let at = 0, text = texts.nextNode(); text; at += text.length, text = texts.nextNode()) {
      if (at <= start) range.setStart(text, Math.min(start - at, text.length));
      if (at < end) range.setEnd(text, Math.min(end - at, text.length));
    }
    const { x, y, width, height } = range.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2 };
  }, word);
}
