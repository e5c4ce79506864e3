import { afterAll, describe, expect, it } from 'vitest';
import { accessibilityViolations, closeBrowser, openApp, phone } from './browser/app.ts';
import { answered, goToPage, jobPages, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

const example = 'A dead alternator';
const entries = ['readings/battery-volts-rest%40battery', 'readings/ask-onset', 'wiring/battery.%2B'];

describe.each(['light', 'dark'] as const)('%s paper', (colorScheme) => {
  it('[WCAG 2.2 A and AA, as axe-core checks them] every page of a job is without violations', async () => {
    const { page } = await openApp({ context: { viewport: phone, colorScheme, reducedMotion: 'reduce' } });
    const job = await openExample(page, example);
    for (const name of [...jobPages, ...entries]) {
      await goToPage(page, job, name);
      await page.evaluate(() => {
        for (const folded of document.querySelectorAll('main details')) folded.setAttribute('open', '');
      });
      expect(await accessibilityViolations(page), name).toEqual([]);
    }
  });

  it('[WCAG 2.2 A and AA, as axe-core checks them] so are a filled list of jobs, a charge run with its what-ifs, and chosen loops', async () => {
    const { page } = await openApp({ context: { viewport: phone, colorScheme, reducedMotion: 'reduce' } });
    const first = page.url();
    for (const title of ['A dead alternator', 'A belt that slips', 'A diode isolator']) {
      await page.goto(first);
      await openExample(page, title);
    }
    const job = page.url().replace(/(#\/job\/[^/]+).*/, '$1');
    await goToPage(page, job, 'charge');
    await page.getByRole('checkbox', { name: /Second alternator/ }).check();
    await page.getByRole('region', { name: 'Differences as a table' }).waitFor();
    expect(await accessibilityViolations(page), 'charge run').toEqual([]);
    await goToPage(page, job, 'wiring/fuse');
    await page.getByText('Add to the wiring').click();
    await page.getByRole('button', { name: 'A battery bank' }).waitFor();
    expect(await accessibilityViolations(page), 'wiring, a part chosen').toEqual([]);
    await goToPage(page, job, 'loop/alternator~start');
    await page.getByText('Start bank +').first().waitFor();
    expect(await accessibilityViolations(page), 'loop').toEqual([]);
    await page.goto(first);
    await page.locator('.jobs > li').nth(2).waitFor();
    expect(await accessibilityViolations(page), 'list of jobs').toEqual([]);
  });

  it('[WCAG 2.2 A and AA, as axe-core checks them] so are the pages outside a job', async () => {
    const { page } = await openApp({ context: { viewport: phone, colorScheme } });
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await accessibilityViolations(page), 'first page').toEqual([]);
    await page.goto(page.url().replace(/#.*/, '') + '#/preferences');
    await page.getByRole('heading', { name: 'Preferences' }).waitFor();
    expect(await accessibilityViolations(page), 'preferences').toEqual([]);
    await page.goto(page.url().replace(/#.*/, '') + '#/new');
    expect(await accessibilityViolations(page), 'complaint').toEqual([]);
    await page.getByRole('button', { name: 'Go on without' }).click();
    expect(await accessibilityViolations(page), 'template').toEqual([]);
    await page.getByRole('button', { name: /One engine/ }).click();
    expect(await accessibilityViolations(page), 'facts').toEqual([]);
  });
});

it('[rule] everything that is pressed is large enough, on each page of a job', async () => {
  const { page } = await openApp({ context: { viewport: phone, hasTouch: true, isMobile: true } });
  const job = await openExample(page, example);
  for (const name of [...jobPages, ...entries]) {
    await goToPage(page, job, name);
    expect(await page.evaluate(smallTargets), name).toEqual([]);
  }
});

it('[WCAG 2.2, 1.4.4] text at twice its size stays on the page', async () => {
  const { page } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, example);
  for (const name of jobPages) {
    await goToPage(page, job, name);
    await page.evaluate(() => (document.documentElement.style.fontSize = '225%'));
    const spill = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(spill, name).toBeLessThanOrEqual(0);
  }
});

it('[rule] pages are reached by keyboard, the focus seen', async () => {
  const { page } = await openApp();
  await openExample(page, example);
  await answered(page);
  await page.keyboard.press('Tab');
  for (let presses = 0; presses < 30; presses++) {
    if ((await page.evaluate(() => document.activeElement?.textContent)) === 'Suspects') break;
    await page.keyboard.press('Tab');
  }
  const outline = await page.evaluate(
    () => getComputedStyle(document.activeElement ?? document.body).outlineStyle,
  );
  expect(outline).toBe('solid');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Suspects', level: 1 }).waitFor();
});

/** Controls under 44 px in either direction; links inside a line of text are let off, as WCAG 2.5.8 does. */
function smallTargets(): string[] {
  const least = 43.5;
  const controls = document.querySelectorAll('a, button, input, select, textarea, summary');
  return [...controls].flatMap((control) => {
    const box = control.getBoundingClientRect();
    if (box.width === 0 || box.height === 0 || control.closest('.skip, .unseen')) return [];
    if (control.matches('p a:not(.button), li > span a, .note a')) return [];
    const label = control.closest('label');
    const place = label ? label.getBoundingClientRect() : box;
    if (Math.max(place.width, box.width) >= least && Math.max(place.height, box.height) >= least) return [];
    return [
      `${control.tagName} ${control.textContent.trim().slice(0, 30)} ${Math.round(box.width)}×${Math.round(box.height)}`,
    ];
  });
}
