import { afterAll, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { closeBrowser, openApp } from './browser/app.ts';
import { answered, goToPage, jobPages } from './browser/journey.ts';

afterAll(closeBrowser);

const markup =
  '<img src=x onerror="window.struck=1"><script>window.struck=1</script>"\'><svg onload=window.struck=1>';

function jobFile(more: object = {}): object {
  return {
    format: 'ampwright-job',
    version: 1,
    id: 'job-of-test',
    title: 'A job from a file',
    complaint: 'Does not charge',
    boat: { template: 'one-battery', facts: { alternator_current: { value: 60, unit: 'A' } } },
    visits: [
      {
        id: 'visit-1',
        readings: [{ id: 'r1', check: 'battery-volts-rest@battery', value: 12.3, unit: 'V' }],
      },
    ],
    ...more,
  };
}

async function bringIn(page: Page, name: string, content: string): Promise<void> {
  await page
    .locator('input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
}

it('[rule] markup in every text of a job does nothing', async () => {
  const { page, problems } = await openApp();
  const file = jobFile({
    title: markup,
    complaint: markup,
    boat: {
      name: markup,
      parts: [
        { id: 'engine', kind: 'engine', label: markup },
        { id: 'alternator', kind: 'alternator', label: markup, serves: 'engine' },
        { id: 'regulator', kind: 'regulator', label: markup, serves: 'alternator' },
        { id: 'battery', kind: 'battery', label: markup },
        { id: 'plus', kind: 'cable', label: markup, from: 'alternator.B+', to: 'battery.+' },
        { id: 'minus', kind: 'cable', label: markup, from: 'battery.-', to: 'engine.block' },
        { id: 'case', kind: 'cable', label: markup, from: 'alternator.case', to: 'engine.block' },
      ],
    },
    visits: [
      {
        id: 'visit-1',
        note: markup,
        readings: [
          {
            id: 'r1',
            check: 'battery-volts-rest@battery',
            value: 12.3,
            note: markup,
            meter: markup.slice(0, 80),
            photos: [markup],
          },
        ],
      },
    ],
  });
  await bringIn(page, 'hostile.json', JSON.stringify(file));
  await page.waitForURL(/#\/job\//);
  await answered(page);
  const job = page.url().replace(/(#\/job\/[^/]+).*/, '$1');
  for (const name of jobPages) await goToPage(page, job, name);
  expect(await page.evaluate(() => 'struck' in window)).toBe(false);
  expect(problems).toEqual([]);
});

it.each([
  ['not JSON', '{"format": "ampwright-job", ', 'line 1'],
  ['another kind of file', '{"a": 1}', 'format'],
  [
    'an unknown unit',
    JSON.stringify(
      jobFile({ boat: { template: 'one-battery', facts: { cable_length: { value: 2, unit: 'furlongs' } } } }),
    ),
    'furlongs',
  ],
  [
    'a huge number',
    JSON.stringify(
      jobFile({ boat: { template: 'one-battery', facts: { cable_length: { value: 1e300, unit: 'm' } } } }),
    ),
    '1e+300',
  ],
  [
    'a negative length',
    JSON.stringify(
      jobFile({ boat: { template: 'one-battery', facts: { cable_length: { value: -2, unit: 'm' } } } }),
    ),
    '-2 m',
  ],
  [
    'a reading of 1400 V',
    JSON.stringify(
      jobFile({
        visits: [
          { id: 'v', readings: [{ id: 'r1', check: 'battery-volts-rest@battery', value: 1400, unit: 'V' }] },
        ],
      }),
    ),
    '1400',
  ],
  ['deep nesting', '['.repeat(5000) + ']'.repeat(5000), 'levels'],
])('[rule] a file with %s is refused with its place, and nothing changes', async (_what, content, told) => {
  const { page, problems } = await openApp();
  await bringIn(page, 'bad.json', content);
  const refusal = page.getByRole('alert');
  await refusal.getByText('bad.json').waitFor();
  expect(await refusal.innerText()).toContain(told);
  expect(await page.getByRole('heading', { name: 'Why is this boat not charging?' }).count()).toBe(1);
  expect(problems).toEqual([]);
});

it('[rule] a job from a newer version opens read-only and goes out as it came', async () => {
  const { page } = await openApp();
  const text = JSON.stringify(jobFile({ version: 99, from_the_future: { kept: true } }));
  await bringIn(page, 'newer.json', text);
  await page.waitForURL(/#\/job\//);
  await answered(page);
  expect(await page.locator('.head').innerText()).toContain('newer version');
  const job = page.url().replace(/(#\/job\/[^/]+).*/, '$1');
  await goToPage(page, job, 'check');
  expect(await page.getByRole('link', { name: /^Enter the/ }).count()).toBe(0);
  await goToPage(page, job, 'visits');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as a file' }).click(),
  ]);
  const stream = await download.createReadStream();
  let saved = '';
  for await (const piece of stream) saved += String(piece);
  expect(saved).toBe(text);
});

it('[rule] all jobs go out in one file and come back', async () => {
  const { page, context } = await openApp();
  await bringIn(page, 'one.json', JSON.stringify(jobFile()));
  await page.waitForURL(/#\/job\//);
  await page.goto(page.url().replace(/#.*/, ''));
  await page.getByRole('button', { name: 'Save all jobs in one file' }).waitFor();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save all jobs in one file' }).click(),
  ]);
  let saved = '';
  for await (const piece of await download.createReadStream()) saved += String(piece);
  const other = await context.newPage();
  await other.goto(page.url());
  await bringIn(other, 'all.json', saved);
  await other.waitForURL(/#\/job\//);
  await answered(other);
  expect(await other.locator('.head-title').innerText()).toBe('A job from a file');
});

it('[rule] the list stays searchable with 500 jobs', async () => {
  const { page } = await openApp();
  const jobs = Array.from({ length: 500 }, (_, index) =>
    jobFile({ id: `job-${index}`, title: `Boat number ${index}` }),
  );
  await bringIn(page, 'many.json', JSON.stringify({ format: 'ampwright-jobs', jobs }));
  await page.getByRole('searchbox', { name: 'Search the jobs' }).waitFor();
  await expect.poll(() => page.locator('.jobs > li').count(), { timeout: 30_000 }).toBe(500);
  await page.getByRole('searchbox', { name: 'Search the jobs' }).fill('number 417');
  await expect.poll(() => page.locator('.jobs > li').count()).toBe(1);
});

it('[rule] a job file dropped on the list comes in', async () => {
  const { page, problems } = await openApp();
  const data = await page.evaluateHandle((text) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([text], 'dropped.json', { type: 'application/json' }));
    return transfer;
  }, JSON.stringify(jobFile()));
  await page.locator('.drop').dispatchEvent('drop', { dataTransfer: data });
  await page.waitForURL(/#\/job\//);
  await answered(page);
  expect(await page.locator('.head-title').innerText()).toBe('A job from a file');
  expect(problems).toEqual([]);
});
