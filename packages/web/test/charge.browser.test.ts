import { afterAll, expect, it } from 'vitest';
import { closeBrowser, openApp, phone } from './browser/app.ts';
import { goToPage, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

it('[rule] a plan is run, two changes stand beside the boat as it is, one is kept and taken back', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, 'A diode isolator');
  await goToPage(page, job, 'charge');
  await page.getByRole('button', { name: 'An hour a day at anchor, three days' }).click();
  expect(await page.locator('.plan-step').count()).toBe(2);
  await page.getByLabel('House bank starts at').fill('60');
  await page.getByRole('img', { name: /State of charge against hours/ }).waitFor();
  const figures = page.getByRole('table', { name: 'What the run comes to' });
  await figures.waitFor();
  expect(await figures.innerText()).toMatch(/Hottest winding\s+\d+\s°C/);

  await page.getByRole('checkbox', { name: /Second alternator/ }).check();
  await page.getByRole('checkbox', { name: /Thicker charging cable/ }).check();
  const table = page.getByRole('region', { name: 'Differences as a table' });
  await table.waitFor();
  await expect.poll(() => table.getByRole('columnheader').count()).toBe(4);
  expect(await table.innerText()).toContain('Engine hours a day');

  const alternators = () => page.locator('.part', { has: page.getByText('G', { exact: true }) }).count();
  await page.getByRole('button', { name: 'Keep it: change this job’s boat' }).first().click();
  await page.getByRole('button', { name: /^Undo: Second alternator/ }).waitFor();
  await goToPage(page, job, 'wiring');
  await expect.poll(alternators).toBe(2);
  await page.getByRole('button', { name: /^Undo: Second alternator/ }).click();
  await expect.poll(alternators).toBe(1);
  expect(problems).toEqual([]);
});

it('[rule] what happens in a run is marked in each chart, listed under its letter, and in the table', async () => {
  const { page } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, 'No field from the outside regulator');
  await goToPage(page, job, 'charge');
  const listed = page.getByRole('region', { name: 'What happens in the run' }).getByRole('listitem');
  await listed.first().waitFor();
  expect(await listed.allInnerTexts()).toEqual([
    expect.stringMatching(/^A\s+Regulator: absorption after /),
    expect.stringMatching(/^B\s+Regulator: float after /),
  ]);
  for (const chart of await page.locator('.run-charts .chart').all())
    expect(await chart.locator('.run-mark-letter').allTextContents()).toEqual(['A', 'B']);
  await page.getByText('The same as a table').first().click();
  const table = page.getByRole('region', { name: 'Charge run as a table' });
  for (const words of ['A: absorption', 'B: float'])
    expect(await table.getByRole('cell', { name: words }).count()).toBe(1);
});

it('[rule] a plan survives a reload, and what is wrong with it is said', async () => {
  const { page } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, 'A diode isolator');
  await goToPage(page, job, 'charge');
  await page.getByLabel('for').first().fill('abc');
  await page.getByText('Step 1: give its hours').waitFor();
  await page.getByLabel('for').first().fill('2.5');
  await page.reload();
  await expect.poll(() => page.getByLabel('for').first().inputValue()).toBe('2.5');
});

it('[rule] the bank and the loop that are drawn can be chosen, and a reload keeps them', async () => {
  const { page } = await openApp();
  const job = await openExample(page, 'A diode isolator');
  await goToPage(page, job, 'rise');
  await page.getByRole('radio', { name: 'Start bank' }).click();
  await page.getByText('Start bank, engine at').waitFor();
  await goToPage(page, job, 'loop');
  await page.getByRole('radio', { name: /to start bank/ }).click();
  await page.getByText('Start bank +').first().waitFor();
  await page.reload();
  await expect.poll(() => page.getByRole('radio', { name: /to start bank/ }).isChecked()).toBe(true);
});
