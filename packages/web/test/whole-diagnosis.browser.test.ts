import { afterAll, describe, expect, it } from 'vitest';
import { closeBrowser, laptop, openApp, phone } from './browser/app.ts';
import { answered, goToPage, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

describe.each([
  ['phone', phone],
  ['laptop', laptop],
])('on a %s', (_name, viewport) => {
  it('[rule] an example leads from its readings to a report', async () => {
    const { page, problems } = await openApp({ context: { viewport } });
    const job = await openExample(page, 'A dead alternator');
    expect(await page.locator('.headline').innerText()).toContain('It is not charging');

    await goToPage(page, job, 'suspects');
    // The head answers first, the page below it when it has the time.
    await page.locator('.suspect-name').first().waitFor();
    const names = await page.locator('.suspect-name').allInnerTexts();
    expect(names.length).toBeGreaterThan(1);

    await goToPage(page, job, 'wiring');
    await page.getByRole('link', { name: /^Battery bank, positive post/ }).click();
    await page.getByRole('heading', { name: 'Battery bank, positive post' }).waitFor();

    await goToPage(page, job, 'report');
    await page.locator('.report').waitFor();
    const report = await page.locator('.report').innerText();
    for (const words of [
      'What was complained of',
      'Is anything wrong?',
      'What to do',
      'What it was not',
      'Readings in order',
      '12.25 V',
    ])
      expect(report).toContain(words);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.head').isVisible()).toBe(false);
    expect(problems).toEqual([]);
  });

  it('[rule] nothing on a page of the job is cut off sideways', async () => {
    const { page } = await openApp({ context: { viewport } });
    const job = await openExample(page, 'A diode isolator');
    for (const name of [
      'check',
      'readings',
      'suspects',
      'wiring',
      'rise',
      'loop',
      'remedy',
      'report',
      'boat',
      'visits',
    ]) {
      await goToPage(page, job, name);
      const spill = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(spill, name).toBeLessThanOrEqual(0);
    }
  });
});

it('[rule] a reading is entered, undone and redone by keyboard alone', async () => {
  const { page, problems } = await openApp();
  const job = await openExample(page, 'A dead alternator');
  await page.goto(`${job}/readings/battery-volts-rest%40battery`);
  await answered(page);
  await page.getByRole('textbox', { name: /Volts at the battery/ }).focus();
  await page.keyboard.type('12.61');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/check$/);
  await page.getByRole('link', { name: 'Readings' }).first().focus();
  await page.keyboard.press('Enter');
  const written = () =>
    page
      .locator('.reading-figure')
      .allInnerTexts()
      .then((texts) => texts.join(' '));
  await expect.poll(written).toContain('12.61 V');
  await page.keyboard.press('Control+z');
  await expect.poll(written).not.toContain('12.61 V');
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(written).toContain('12.61 V');
  expect(problems).toEqual([]);
});
