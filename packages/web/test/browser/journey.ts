/** Steps that several tests take through the page. */
import type { Page } from 'playwright-core';

export const jobPages = [
  'check',
  'readings',
  'suspects',
  'wiring',
  'rise',
  'loop',
  'charge',
  'remedy',
  'report',
  'boat',
  'visits',
] as const;

/** Opens an example from the list of jobs and waits for its first answer. Returns the job's address without a page. */
export async function openExample(page: Page, title: string): Promise<string> {
  await page.getByRole('button', { name: title }).last().click();
  await page.waitForURL(/#\/job\//);
  await answered(page);
  return page.url().replace(/(#\/job\/[^/]+).*/, '$1');
}

/** Waits until the present readings are answered; a phone leaves the four questions out beside the keypad. */
export async function answered(page: Page): Promise<void> {
  await page.locator('.head-answer[data-stale="false"] .question').first().waitFor({ state: 'attached' });
}

/** Goes to a page of a job by its address, as a reload would. */
export async function goToPage(page: Page, job: string, name: string): Promise<void> {
  await page.goto(`${job}/${name}`);
  await answered(page);
}

/** Presses the keys of a figure on the page's own keypad; one tap each. Returns the taps. */
export async function keyIn(page: Page, figure: string): Promise<number> {
  const names: Readonly<Record<string, string>> = { '.': 'point', '-': 'change sign' };
  for (const key of figure) await page.getByRole('button', { name: names[key] ?? key, exact: true }).click();
  return figure.length;
}
