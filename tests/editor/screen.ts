/** What a person sees: the window is driven and looked at from outside. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { editorIn, hoverCard, previewIn } from '../../scripts/editor/window.ts';

export interface ScreenTest {
  readonly name: string;
  run(page: Page): Promise<void>;
}

export const screenTests: readonly ScreenTest[] = [
  {
    name: 'the note is open, the result of its mixture at the end of the line',
    run: (page) => editorIn(page).getByText('= 1010 mL').first().waitFor(),
  },
  {
    name: 'its preview stands beside it',
    run: async (page) => (await previewIn(page)).getByRole('heading', { name: 'A right mixture and a slip' }).waitFor(),
  },
  {
    name: 'the preview shows the mixture as a card with figures, and the slip where it belongs',
    run: async (page) => {
      const preview = await previewIn(page);
      await preview.getByRole('heading', { name: 'Gastric replacement' }).waitFor();
      await preview.getByRole('img', { name: 'Cations and anions beside plasma’s' }).waitFor();
      await preview.locator('.meniscus-finding', { hasText: 'sodum' }).waitFor();
    },
  },
  {
    name: 'axe finds nothing serious in what we add to the preview',
    run: async (page) => {
      const body = await (await previewIn(page)).locator('body').elementHandle();
      const frame = await body?.ownerFrame();
      if (!frame) throw new Error('the preview is not there');
      await frame.evaluate(axe.source);
      const { violations }: axe.AxeResults = await frame.evaluate("axe.run('.meniscus-block')");
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      if (serious.length > 0) throw new Error(serious.map(({ id, help }) => `${id}: ${help}`).join('; '));
    },
  },
  {
    name: 'the misspelt word has a squiggle',
    run: (page) => editorIn(page).locator('.squiggly-error').first().waitFor({ state: 'attached' }),
  },
  {
    name: 'the status bar counts one finding',
    run: (page) => page.locator('.statusbar-item', { hasText: /^1 finding$/ }).waitFor(),
  },
  {
    name: 'the card of the mixture comes up with its picture drawn',
    async run(page) {
      const card = await hoverCard(page, 'mixture gastric', 'gastric');
      await card.getByText('Gastric replacement').first().waitFor();
      const picture = card.locator('img').first();
      const drawn: number = await picture.evaluate((image) => image.decode().then(() => image.naturalWidth));
      if (drawn === 0) throw new Error('the picture is empty');
    },
  },
  {
    name: 'the squiggle comes up with its reason and the link to its page',
    async run(page) {
      const card = await hoverCard(page, 'sodum', 'sodum');
      await card.getByText('sodum').first().waitFor();
      await card.getByRole('link', { name: 'unknown-name' }).waitFor();
    },
  },
];

export const policyScreenTests: readonly ScreenTest[] = [
  {
    name: 'the preview takes findings as the policy of its folder says, and again when that changes',
    async run(page) {
      const finding = (await previewIn(page)).locator('.meniscus-finding', { hasText: '150 mmol/L' });
      await finding.first().waitFor();
      // The file opens where the cursor is.
      await editorIn(page).locator('.view-line').first().click();
      await page.keyboard.press('Control+P');
      const input = page.locator('.quick-input-box input').first();
      await input.fill('infusion-policy.json');
      await page.locator('.quick-input-list .monaco-list-row', { hasText: 'infusion-policy.json' }).first().waitFor();
      await input.press('Enter');
      // The word alone, so that no bracket is typed that the editor would close.
      await editorIn(page).getByText('"warning"').first().dblclick();
      await page.keyboard.insertText('off');
      await finding.first().waitFor({ state: 'detached' });
      await (await previewIn(page)).getByRole('heading', { name: 'Rounded' }).waitFor();
    },
  },
];
