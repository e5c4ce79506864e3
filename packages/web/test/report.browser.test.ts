import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, onTestFinished } from 'vitest';
import { closeBrowser, openApp, phone } from './browser/app.ts';
import { goToPage, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

it('[rule] the report comes as PDF without a server, readings, odds and signatures in it', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'ampwright-report-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const { page, problems, stopServer } = await openApp({ context: { viewport: phone } });
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    for (let tries = 0; tries < 100 && (await caches.keys()).length === 0; tries++)
      await new Promise((resolve) => setTimeout(resolve, 100));
  });
  await page.reload();
  await stopServer();
  const job = await openExample(page, 'A dead alternator');
  await goToPage(page, job, 'report');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as PDF' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('ampwright-a-dead-alternator-report.pdf');
  const file = join(folder, 'report.pdf');
  await download.saveAs(file);
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  const [owner = '', ...rest] = text.split('\f');
  for (const words of ['A dead alternator', 'Is anything wrong?', 'in 100', 'Owner, date'])
    expect(owner).toContain(words);
  for (const words of ['Appendix', '12.20 V', 'Potential along the loop', 'Baseline for next time'])
    expect(rest.join('\n')).toContain(words);
  expect(problems).toEqual([]);
});
