import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, onTestFinished } from 'vitest';
import { builtPage, closeBrowser, openApp } from './browser/app.ts';
import { answered, keyIn, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

const restReading = 'readings/battery-volts-rest%40battery';

it('[rule] a reload comes back to the same page with the half-typed figure', async () => {
  const { page } = await openApp();
  const job = await openExample(page, 'A dead alternator');
  await page.goto(`${job}/${restReading}`);
  await answered(page);
  await keyIn(page, '12.5');
  await page.reload();
  await answered(page);
  expect(await page.getByRole('textbox', { name: /Volts at the battery/ }).inputValue()).toBe('12.5');
});

it('[rule] a page that is killed in the middle of an edit loses nothing', async () => {
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

it('[rule] two tabs on one job keep each other’s readings', async () => {
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

it('[rule] after one load everything works with the server gone, first diagnosis included', async () => {
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

it('[rule] a newer version waits until it is taken, and what is half typed stays', async () => {
  const root = mkdtempSync(join(tmpdir(), 'ampwright-page-'));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  cpSync(builtPage, root, { recursive: true });
  const { page, problems } = await openApp({ root });
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  const job = await openExample(page, 'A dead alternator');
  await page.goto(`${job}/${restReading}`);
  await answered(page);
  await keyIn(page, '12.6');
  expect(await page.getByText('A newer version is ready').count()).toBe(0);
  appendFileSync(join(root, 'sw.js'), '\n// the next version\n');
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });
  await page.getByText('A newer version is ready').waitFor();
  const figure = page.getByRole('textbox', { name: /Volts at the battery/ });
  expect(await figure.inputValue()).toBe('12.6');
  await page.getByRole('button', { name: 'Take it now' }).click();
  await page.waitForLoadState('load');
  await answered(page);
  await expect.poll(() => figure.inputValue()).toBe('12.6');
  expect(problems).toEqual([]);
});

it('[rule] the clock’s figure when charge sets in becomes the regulator’s delay, undoably', async () => {
  const { page } = await openApp();
  const job = await openExample(page, 'A start delay taken for a fault');
  await page.goto(`${job}/readings`);
  await page.getByRole('button', { name: 'The engine starts now' }).click();
  await page.getByText(/Engine running/).waitFor();
  await page.getByRole('button', { name: 'Charge sets in now' }).click();
  await page.getByRole('button', { name: /^Undo: charge set in after \d+ s/ }).click();
  await page.getByRole('button', { name: /^Redo: charge set in after/ }).waitFor();
});

it('[rule] square millimetres become AWG, and the choice outlives a reload', async () => {
  const { page } = await openApp();
  const job = await openExample(page, 'A diode isolator');
  await page.goto(`${job}/boat`);
  await page
    .getByText(/25\s*mm²/)
    .first()
    .waitFor();
  await page.goto(`${page.url().replace(/#.*/, '')}#/preferences`);
  await page.getByRole('radio', { name: /AWG/ }).check();
  await page.reload();
  expect(await page.getByRole('radio', { name: /AWG/ }).isChecked()).toBe(true);
  await page.goto(`${job}/boat`);
  await page.locator('.row-under', { hasText: 'AWG' }).first().waitFor();
  expect(await page.locator('.row-under', { hasText: 'mm²' }).count()).toBe(0);
});
