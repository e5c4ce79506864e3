import { afterAll, expect, it } from 'vitest';
import { closeBrowser, openApp, phone } from './browser/app.ts';
import { answered, keyIn } from './browser/journey.ts';

afterAll(closeBrowser);

it('[rule] a first visit reaches the first answer within 30 taps, six facts told', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone, hasTouch: true, isMobile: true } });
  let taps = 0;
  const tap = async (role: 'button' | 'link' | 'radio', name: string | RegExp) => {
    await page.getByRole(role, { name }).first().click();
    taps++;
  };
  await tap('link', 'New job');
  await tap('button', 'The batteries do not charge');
  await tap('button', 'One engine, one battery bank');
  await tap('radio', '12 V');
  await tap('radio', '60 A');
  await tap('radio', 'Inside the alternator');
  await tap('radio', 'Charge lamp');
  await tap('radio', '200 Ah');
  await tap('radio', 'Flooded');
  await tap('button', 'That is all: to the voltmeter');
  await page.getByRole('heading', { name: /engine off/i }).waitFor();
  taps += await keyIn(page, '12.4');
  await tap('button', 'Write it down');
  await page.getByRole('heading', { name: /1500 rpm|running|fast/i }).waitFor();
  taps += await keyIn(page, '12.4');
  await tap('button', 'Write it down');
  await page.getByRole('heading', { level: 1 }).waitFor();
  await answered(page);

  const headline = await page.locator('.headline').innerText();
  expect(headline).toMatch(/^(It is charging|It is not charging|It may or may not)/);
  expect(await page.locator('.question').count()).toBe(4);
  expect(taps).toBeLessThanOrEqual(30);
  expect(problems).toEqual([]);
});

it("[rule] the complaint is the owner's answer, and is not asked for again", async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  await page.getByRole('link', { name: 'New job' }).click();
  await page.getByRole('button', { name: 'Flat by the morning' }).click();
  await page.getByRole('button', { name: 'One engine, one battery bank' }).click();
  await page.getByRole('button', { name: 'That is all: to the voltmeter' }).click();
  await page.waitForURL(/readings/);
  await page.goto(page.url().replace(/readings.*/, 'readings'));
  const noticed = page.locator('.reading', { hasText: 'What did the owner notice?' });
  await noticed.waitFor();
  expect(await noticed.innerText()).toContain('The batteries are flat by morning');
  expect(problems).toEqual([]);
});

it('[rule] every fact may stay unknown', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  await page.getByRole('link', { name: 'New job' }).click();
  await page.getByRole('button', { name: 'Go on without' }).click();
  await page.getByRole('button', { name: 'House and start banks, combining relay' }).click();
  await page.getByRole('button', { name: 'That is all: to the voltmeter' }).click();
  await page.getByRole('button', { name: 'Could not do it' }).click();
  await answered(page);
  expect(await page.locator('.question').count()).toBe(4);
  expect(problems).toEqual([]);
});
