import { afterAll, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { closeBrowser, openApp, phone } from './browser/app.ts';
import { answered, goToPage, keyIn, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

/** A picture of the given size, as a camera might give it. */
async function picture(page: Page, width: number, height: number): Promise<Buffer> {
  const bytes = await page.evaluate(
    async ([w, h]) => {
      const canvas = new OffscreenCanvas(w ?? 1, h ?? 1);
      const context = canvas.getContext('2d');
      context?.fillRect(0, 0, 40, 40);
      const blob = await canvas.convertToBlob({ type: 'image/png' });
      return [...new Uint8Array(await blob.arrayBuffer())];
    },
    [width, height],
  );
  return Buffer.from(bytes);
}

it('[rule] a photo goes with its reading, is made small, survives a reload, comes out as a file', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, 'A dead alternator');
  await page.goto(`${job}/readings/battery-volts-cranking%40battery`);
  await answered(page);
  const camera = page.locator('.photos input[type=file]');
  expect(await camera.getAttribute('capture')).toBe('environment');
  const buffer = await picture(page, 4000, 3000);
  await camera.setInputFiles({ name: 'IMG_1.png', mimeType: 'image/png', buffer });
  await page.locator('.photo img').waitFor();
  const size = await page
    .locator('.photo img')
    .evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight]);
  expect(size).toEqual([1600, 1200]);

  await page.reload();
  await page.locator('.photo img').waitFor();
  await keyIn(page, '10.4');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await goToPage(page, job, 'readings');
  await page.getByText('a photo').waitFor();
  await goToPage(page, job, 'visits');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save its photo' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^photo-[0-9a-f-]+\.jpg$/);
  expect(problems).toEqual([]);
});

it('[rule] a file that is no picture is refused, and a photo that no job names as well', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, 'A dead alternator');
  await page.goto(`${job}/readings/battery-volts-rest%40battery`);
  await answered(page);
  await page
    .locator('.photos input[type=file]')
    .setInputFiles({ name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') });
  await page.getByText(/notes\.jpg: This file is no picture/).waitFor();
  await page.goto(job.replace(/#.*/, '#/'));
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'stray.png', mimeType: 'image/png', buffer: await picture(page, 8, 8) });
  await page.getByRole('alert').getByText('stray.png').waitFor();
  expect(problems).toEqual([]);
});
