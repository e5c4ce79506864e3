import { afterAll, expect, it } from 'vitest';
import { closeBrowser, openApp, phone } from './browser/app.ts';
import { answered, goToPage, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

it('[rule] a bank, a second alternator and another cable come in at the drawing, and go again by undo', async () => {
  const { page, problems } = await openApp({
    context: { viewport: phone, hasTouch: true, isMobile: true },
  });
  const job = await openExample(page, 'A dead alternator');
  await goToPage(page, job, 'wiring');
  const parts = (name: RegExp) => page.locator('.part').and(page.getByRole('link', { name })).count();
  await page.getByRole('region', { name: 'Wiring drawing' }).waitFor();
  const machines = await parts(/^Alternator/);
  const before = await page.locator('.part').count();
  await page.getByText('Add to the wiring').click();
  await page.getByRole('button', { name: 'A battery bank' }).click();
  await expect.poll(() => page.locator('.part').count()).toBe(before + 1);
  await page.getByRole('button', { name: 'A second alternator' }).click();
  await expect.poll(() => parts(/^Alternator/)).toBe(machines + 1);
  await answered(page);
  await page.getByRole('button', { name: /^Undo: add a second alternator/ }).click();
  await expect.poll(() => parts(/^Alternator/)).toBe(machines);
  await page.getByRole('button', { name: /^Undo: add a bank/ }).click();
  await expect.poll(() => page.locator('.part').count()).toBe(before);

  await goToPage(page, job, 'wiring/alternator.B%2B');
  const cable = page.locator('.part-form', { hasText: 'Charge cable' }).first();
  await cable.locator('summary').first().click();
  await cable
    .getByRole('textbox', { name: /section|size/i })
    .first()
    .fill('50');
  await cable
    .getByRole('textbox', { name: /section|size/i })
    .first()
    .blur();
  await page.getByRole('button', { name: /^Undo: Charge cable/ }).waitFor();
  expect(problems).toEqual([]);
});
