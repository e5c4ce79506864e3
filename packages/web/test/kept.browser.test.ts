import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, onTestFinished } from 'vitest';
import { closeBrowser, openApp } from './browser/app.ts';
import { answered, keyIn, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

const restReading = 'readings/battery-volts-rest%40battery';

it('[design, faces] a reload comes back to the same page with the half-typed figure', async () => {
  const { page } = await openApp();
  const job = await openExample(page, 'A dead alternator');
  await page.goto(`${job}/${restReading}`);
  await answered(page);
  await keyIn(page, '12.5');
  await page.reload();
  await answered(page);
  expect(await page.getByRole('textbox', { name: /Volts at the battery/ }).inputValue()).toBe('12.5');
});

it('[design, faces] a page that is killed in the middle of an edit loses nothing', async () => {
  const profile = mkdtempSync(join(tmpdir(), 'ampwright-profile-'));
  onTestFinished(() => rmSync(profile, { recursive: true, force: true }));
  const first = await openApp({ profile });
  const job = await openExample(first.page, 'A dead alternator');
  await first.page.goto(`${job}/${restReading}`);
  await answered(first.page);
  await keyIn(first.page, '12.71');
  await first.page.getByRole('button', { name: 'Correct it' }).click();
  await first.page.goto(`${job}/readings/battery-volts-idle%40battery`);
  await answered(first.page);
  await keyIn(first.page, '13');
  await first.page.goto('chrome://crash').catch(() => undefined);
  await first.close();

  const again = await openApp({ profile, port: first.port });
  await again.page.goto(`${job}/readings`);
  await answered(again.page);
  expect((await again.page.locator('.reading').allInnerTexts()).join(' ')).toContain('12.71 V');
  await again.page.goto(`${job}/readings/battery-volts-idle%40battery`);
  await answered(again.page);
  expect(await again.page.getByRole('textbox', { name: /Volts at the battery/ }).inputValue()).toBe('13');
});

it('[design, faces] two tabs on one job keep each other’s readings', async () => {
  const { page, context } = await openApp();
  const job = await openExample(page, 'A dead alternator');
  const other = await context.newPage();
  await other.goto(`${job}/readings/battery-volts-idle%40battery`);
  await answered(other);
  await page.goto(`${job}/${restReading}`);
  await answered(page);
  await keyIn(page, '12.33');
  await keyIn(other, '12.44');
  await Promise.all([
    page.getByRole('button', { name: 'Correct it' }).click(),
    other.getByRole('button', { name: 'Write it down' }).click(),
  ]);
  for (const tab of [page, other]) {
    await tab.goto(`${job}/readings`);
    await answered(tab);
    const written = () =>
      tab
        .locator('.reading')
        .allInnerTexts()
        .then((texts) => texts.join(' '));
    await expect.poll(written).toContain('12.33 V');
    await expect.poll(written).toContain('12.44 V');
  }
});

it('[design, faces] after one load everything works with the server gone, first diagnosis included', async () => {
  const { page, stopServer, problems } = await openApp();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await stopServer();
  await page.reload();
  await openExample(page, 'A dead alternator');
  expect(await page.locator('.headline').innerText()).toContain('It is not charging');
  expect(problems).toEqual([]);
});
