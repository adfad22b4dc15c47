/** `npm run screenshots`: the pictures of the real editor in `docs/pictures`. */
import { mkdir, readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { DEFAULT_POLICY } from '../src/note/index.ts';
import { pageOf } from '../src/preview/page.ts';
import { build } from './build.ts';
import { launchChromium } from './editor/chromium.ts';
import { startHost } from './editor/host.ts';
import { editorIn, goToLine, hoverCard, previewIn } from './editor/window.ts';
import { root } from './root.ts';

/** What is shown around a card, in pixels. */
const margin = 120;
const pictures = `${root}docs/pictures`;
/** In which the lesson is shown beside its preview. */
const THEMES = [
  ['light', 'Default Light Modern'],
  ['dark', 'Default Dark Modern'],
  ['high-contrast', 'Default High Contrast'],
] as const;

await build();
const found = await launchChromium();
if (!('browser' in found)) {
  console.error(`No Chromium starts:\n${found.reasons.join('\n')}`);
  process.exit(1);
}
const { browser } = found;
await mkdir(pictures, { recursive: true });
await inEditor('bag-shortage.md', pictureMixtures);
await inEditor('bag-shortage.md', pictureWriting);
await inEditor('ward-orders.md', pictureOrder);
await photographCards('bag-shortage.md');
for (const [name, theme] of THEMES) await inEditor('lesson.md', pictureLesson(name), theme);
await browser.close();

/** Opens a demo note in a window of its own. */
async function inEditor(
  note: string,
  take: (page: Page, note: string) => Promise<void>,
  theme?: string,
): Promise<void> {
  const host = await startHost({ folder: `${root}demo`, note, port: 0, ...(theme && { theme }) });
  const page = await browser.newPage({ viewport: { width: 1280, height: 780 }, deviceScaleFactor: 1.5 });
  await page.goto(host.address);
  await take(page, note);
  await page.close();
  await host.close();
}

async function pictureMixtures(page: Page, note: string): Promise<void> {
  await editorIn(page).getByText('= 1010 mL').first().waitFor();
  await (await previewIn(page)).getByRole('heading').first().waitFor();
  await page.keyboard.press('Control+B');
  await goToLine(page, (await lineOf(note, 'mixture potassium-drip')) - 1);
  await hoverCard(page, 'mixture three-percent', 'three-percent');
  await page.screenshot({ path: `${pictures}/editor.png` });

  await giveCardsRoom(page);
  await goToLine(page, (await lineOf(note, 'mixture gastric')) - 2);
  await photograph('card', await hoverCard(page, 'mixture gastric', 'gastric'));

  await goToLine(page, await lineOf(note, 'sodum'));
  await photograph('finding', await hoverCard(page, 'sodum', 'sodum'));
}

/** What is offered for a finding, and in a link. */
async function pictureWriting(page: Page, note: string): Promise<void> {
  await editorIn(page).getByText('= 1010 mL').first().waitFor();
  await page.keyboard.press('Control+B');
  const ampoules = await lineOf(note, '3 x 50 mL');
  await goToLine(page, ampoules);
  await goToWord(page, note, ampoules, '50 mL');
  await page.keyboard.press('Control+.');
  await photograph('mend', page.locator('.action-widget').first());
  await page.keyboard.press('Escape');

  const link = await lineOf(note, 'infusion:alkaline/sodium');
  await goToLine(page, link);
  await goToWord(page, note, link, 'sodium)');
  await page.keyboard.press('Control+Space');
  await photograph('link', page.locator('.suggest-widget.visible').first());
}

/** Moves the cursor from the start of a line to a word in it. */
async function goToWord(page: Page, note: string, line: number, word: string): Promise<void> {
  const text = (await readFile(`${root}demo/${note}`, 'utf8')).split('\n')[line - 1] ?? '';
  await page.keyboard.press('Home');
  await page.keyboard.press('Home');
  for (let column = 0; column < text.indexOf(word); column += 1) await page.keyboard.press('ArrowRight');
}

async function pictureOrder(page: Page, note: string): Promise<void> {
  await editorIn(page).getByText('= body water').first().waitFor();
  await page.keyboard.press('Control+B');
  await giveCardsRoom(page);
  await goToLine(page, (await lineOf(note, 'give 3 x')) + 1);
  await photograph('order', await hoverCard(page, 'give 3 x', 'sodium'));
}

/** A question of the lesson and its what-if table, the note on the left and the preview on the right. */
function pictureLesson(name: string): (page: Page, note: string) => Promise<void> {
  return async (page, note) => {
    await editorIn(page).getByText('folded').first().waitFor();
    const preview = await previewIn(page);
    await preview.getByRole('heading', { name: 'Bicarbonate in dextrose' }).waitFor();
    await page.keyboard.press('Control+B');
    await goToLine(page, (await lineOf(note, 'what if alkaline')) + 3);
    await preview
      .getByRole('heading', { name: 'Bicarbonate in dextrose' })
      .evaluate((heading) => heading.scrollIntoView());
    await page.waitForTimeout(1500);
    await page.screenshot({ path: `${pictures}/lesson-${name}.png` });
  };
}

/** The cards of the first block, as the preview and the page of the command line show them. */
async function photographCards(note: string): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 900, height: 1000 }, deviceScaleFactor: 1.5 });
  const source = await readFile(`${root}demo/${note}`, 'utf8');
  await page.setContent(pageOf(source, { policy: DEFAULT_POLICY, title: null, untitled: note }));
  await page
    .locator('.meniscus-block')
    .first()
    .screenshot({ path: `${pictures}/preview.png` });
}

/** Leaves the note alone in a window so high that VS Code shows a card whole: it gives it a quarter of the height. */
async function giveCardsRoom(page: Page): Promise<void> {
  await page.setViewportSize({ width: 1000, height: 3000 });
  await page.locator('.editor-group-container').nth(1).locator('.tab .codicon-close').click();
}

/** Where in a demo note a word stands first, counted from 1. */
async function lineOf(note: string, word: string): Promise<number> {
  const lines = (await readFile(`${root}demo/${note}`, 'utf8')).split('\n');
  return lines.findIndex((line) => line.includes(word)) + 1;
}

/** The card or the list, and the lines of the note around it. */
async function photograph(name: string, card: Locator): Promise<void> {
  const page = card.page();
  await card.waitFor();
  const [editor, box] = await Promise.all([editorIn(page).boundingBox(), card.boundingBox()]);
  if (!editor || !box) throw new Error('the editor or its card is not on the screen');
  const right = Math.max(editor.x + editor.width, box.x + box.width + margin);
  const top = Math.max(editor.y, box.y - margin);
  const clip = { x: editor.x, y: top, width: right - editor.x, height: box.height + 2 * margin };
  await page.screenshot({ path: `${pictures}/${name}.png`, clip });
}
