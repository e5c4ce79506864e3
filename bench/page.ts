/** Weight and speed of the page in Chromium, against the aims: weight of a first use by part, time until it can be used, and
 *  with the page's processor slowed four times: the longest task of the main thread and the wait for the answer after a
 *  reading. Chromium slows the main thread only; the worker that computes the answer runs at full speed.
 *  Run: npm run bench:page   (after npm run build). Ends with 1 when an aim is missed.
 */
import { readdirSync, readFileSync } from 'node:fs';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { serve } from '@ampwright/server';
import type { Page } from 'playwright-core';
import { launchChromium } from '../packages/web/test/browser/chromium.ts';

const dist = fileURLToPath(new URL('../packages/web/dist', import.meta.url));
const runs = 5;
const slowed = 4;

interface Figure {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly aim?: number;
}

let missed = 0;
function tell(figure: Figure): void {
  const { what, value, unit, aim } = figure;
  const ok = aim === undefined || value <= aim;
  if (!ok) missed++;
  const verdict = aim === undefined ? '' : `aim ≤ ${aim} ${unit}  ${ok ? 'met' : 'MISSED'}`;
  console.log(`${what.padEnd(62)} ${value.toFixed(0).padStart(6)} ${unit.padEnd(3)} ${verdict}`);
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

weigh();
const server = await serve({ root: dist, port: 0 });
const browser = await launchChromium();
try {
  await firstUse();
  await reading();
  await openPages();
} finally {
  await browser.close();
  await server.close();
}
process.exitCode = missed > 0 ? 1 : 0;

/** What a first visit fetches before its first answer: the page, its script, style, fonts and worker. */
function weigh(): void {
  const files = readdirSync(`${dist}/assets`);
  const size = (pattern: RegExp, zip = true): number =>
    files
      .filter((name) => pattern.test(name))
      .map((name) => readFileSync(`${dist}/assets/${name}`))
      .reduce((sum, bytes) => sum + (zip ? gzipSync(bytes).length : bytes.length), 0) / 1000;
  const page = gzipSync(readFileSync(`${dist}/index.html`)).length / 1000;
  const lazy = /^(?:.*-page|rise-key|loop-drawing|use-chart|placement|fitted|pdf-fonts|src|workbox)/;
  const scripts = size(/^(?:index|jsx-runtime|format)-.*\.js$/);
  const parts = [
    ['page and style', page + size(/^index-.*\.css$/)],
    ['script of the page', scripts],
    ['worker: circuit, diagnosis, job file', size(/^worker-.*\.js$/)],
  ] as const;
  for (const [what, value] of parts) tell({ what: `weight, gzip: ${what}`, value, unit: 'kB' });
  const first = parts.reduce((sum, [, value]) => sum + value, 0);
  tell({ what: 'weight, gzip: first use', value: first, unit: 'kB', aim: 300 });
  tell({ what: 'weight: fonts of the page (as they are)', value: size(/\.woff2$/, false), unit: 'kB' });
  tell({ what: 'weight, gzip: pages opened later', value: size(lazy) - size(/^src-/), unit: 'kB' });
  tell({
    what: 'weight, gzip: layout of the PDF, when one is made',
    value: size(/^src-.*\.js$/),
    unit: 'kB',
  });
}

/** Until the heading stands and the main thread is free. */
async function firstUse(): Promise<void> {
  const times: number[] = [];
  for (let run = 0; run < runs; run++) {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await watchTasks(page);
    await page.goto(server.url);
    await page.getByRole('link', { name: 'New job' }).waitFor();
    const painted = await page.evaluate(
      () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0,
    );
    const tasks = await tasksOf(page);
    times.push(Math.max(painted, ...tasks.map(({ start, length }) => start + length)));
    await page.close();
  }
  tell({ what: 'time until the first page can be used', value: median(times), unit: 'ms', aim: 1000 });
}

/** A page with an example open and answered, its long tasks watched. */
async function openedExample() {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  await watchTasks(page);
  await page.goto(server.url);
  await page.getByRole('button', { name: 'A dead alternator' }).last().click();
  await page.waitForURL(/#\/job\//);
  await answered(page);
  const job = page.url().replace(/(#\/job\/[^/]+).*/, '$1');
  const session = await page.context().newCDPSession(page);
  return { page, job, session };
}

/** A reading written down on several pages of an example, the processor slowed. */
async function reading(): Promise<void> {
  const longest: number[] = [];
  const waits: number[] = [];
  for (let run = 0; run < runs; run++) {
    const { page, job, session } = await openedExample();
    await page.goto(`${job}/readings/battery-volts-rest%40battery`);
    await answered(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
    await page.getByRole('button', { name: '1', exact: true }).waitFor();
    for (const key of ['1', '2', 'point', '5'])
      await page.getByRole('button', { name: key, exact: true }).click();
    await page.waitForTimeout(400);
    await tasksOf(page);
    const wait = await page.evaluate(async () => {
      const button = [...document.querySelectorAll('button')].find((one) =>
        /^(Correct it|Write it down)/.test(one.textContent),
      );
      const begin = performance.now();
      button?.click();
      let seenStale = false;
      return new Promise<number>((resolve) => {
        const look = () => {
          const state = document.querySelector('.head-answer')?.getAttribute('data-stale');
          if (state === 'true') seenStale = true;
          if (seenStale && state === 'false') resolve(performance.now() - begin);
          else requestAnimationFrame(look);
        };
        look();
      });
    });
    await page.waitForTimeout(800);
    const tasks = await tasksOf(page);
    waits.push(wait);
    longest.push(Math.max(0, ...tasks.map(({ length }) => length)));
    await page.close();
  }
  tell({
    what: `answer after a reading, slowed ${slowed} times`,
    value: median(waits),
    unit: 'ms',
    aim: 300,
  });
  tell({
    what: `longest task after a reading, slowed ${slowed} times (0: none over 50)`,
    value: median(longest),
    unit: 'ms',
    aim: 50,
  });
  tell({ what: '  the worst of the runs', value: Math.max(...longest), unit: 'ms' });
}

/** A reading taken back and set again while each page of the job is open, the processor slowed. */
async function openPages(): Promise<void> {
  const { page, job, session } = await openedExample();
  await page.goto(`${job}/readings/look-belt%40belt`);
  await answered(page);
  await page.locator('.answer').nth(1).click();
  await answered(page);
  for (const name of ['readings', 'suspects', 'wiring', 'rise', 'loop', 'remedy', 'report']) {
    await page.goto(`${job}/${name}`);
    await page.waitForTimeout(1500);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
    await tasksOf(page);
    const rounds: number[] = [];
    for (let round = 0; round < 3; round++) {
      for (const name of [/^Undo/, /^Redo/]) {
        await page.getByRole('button', { name }).click();
        await page.waitForTimeout(1000);
      }
      rounds.push(Math.max(0, ...(await tasksOf(page)).map(({ length }) => length)));
    }
    const longest = median(rounds);
    await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
    tell({
      what: `longest task, page "${name}" open, slowed ${slowed} times`,
      value: longest,
      unit: 'ms',
      aim: 50,
    });
  }
  await page.close();
}

interface Task {
  readonly start: number;
  readonly length: number;
}

/** Keeps the main thread's tasks of 50 ms and more, as Chromium reports them. */
async function watchTasks(page: Page): Promise<void> {
  // The runner of this script wraps named functions in a helper, which the page lacks.
  await page.addInitScript('window.__name = (made) => made');
  await page.addInitScript(() => {
    const kept: { start: number; length: number }[] = [];
    Object.assign(window, { longTasks: kept });
    new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries())
        kept.push({ start: startTime, length: duration });
    }).observe({ type: 'longtask', buffered: true });
  });
}

/** The tasks since the last call. */
async function tasksOf(page: Page): Promise<readonly Task[]> {
  return page.evaluate(() => {
    const kept = (window as unknown as { longTasks: Task[] }).longTasks;
    return kept.splice(0);
  });
}

async function answered(page: Page): Promise<void> {
  await page.locator('.head-answer[data-stale="false"] .question').first().waitFor();
}
