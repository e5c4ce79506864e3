import { afterAll, describe, expect, it } from 'vitest';
import { accessibilityViolations, closeBrowser, laptop, openApp, phone } from './browser/app.ts';
import { answered, goToPage, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

describe.each([
  ['phone, light', phone, 'light'],
  ['laptop, dark', laptop, 'dark'],
] as const)('on a %s', (_name, viewport, colorScheme) => {
  it('[rule] what was put right begins a new visit whose readings prove it, and can be undone', async () => {
    const { page, problems } = await openApp({ context: { viewport, colorScheme } });
    const job = await openExample(page, 'A belt that slips');
    await goToPage(page, job, 'remedy');
    const button = page.getByRole('button', { name: 'This was put right: prove it' });
    await button.waitFor();
    // WCAG 2.2, 2.5.5: a target is at least 44 px.
    expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(44);
    await button.focus();
    await page.keyboard.press('Enter');
    const note = page.locator('.note', { hasText: /^Put right: Belt slips/ });
    await note.waitFor();
    await answered(page);
    expect(await page.locator('.headline').innerText()).toContain('Nothing is measured since the repair');
    expect(await accessibilityViolations(page)).toEqual([]);

    await page.goto(`${job}/readings/battery-volts-fast%40battery`);
    await page.getByRole('textbox', { name: /Volts at the battery/ }).fill('14.1');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/check$/);
    await goToPage(page, job, 'suspects');
    const suspects = page.locator('.suspect-name');
    await suspects.first().waitFor();
    expect((await suspects.allInnerTexts()).join()).not.toContain('Belt slips');

    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await suspects.filter({ hasText: 'Belt slips' }).first().waitFor();
    expect(await note.count()).toBe(0);
    expect(problems).toEqual([]);
  });
});
