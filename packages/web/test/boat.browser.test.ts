import { afterAll, expect, it } from 'vitest';
import { closeBrowser, openApp, phone } from './browser/app.ts';
import { goToPage, openExample } from './browser/journey.ts';

afterAll(closeBrowser);

it('[rule] a told point of the curve that no such alternator has is said at its field, and no more once it is corrected', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  const job = await openExample(page, 'A dead alternator');
  await goToPage(page, job, 'boat');
  const form = page.locator('details.part-form', { hasText: '70 A' });
  await form.locator('summary').click();
  const field = form.getByRole('textbox', { name: /^Amps at 1800 rpm/ });
  // A 70 A machine that gives 69 A at 1800 rpm would have no rise left to its 6000 rpm.
  await field.fill('69');
  await field.press('Enter');
  const note = form.getByRole('status');
  await note.waitFor();
  expect(await note.innerText()).toContain('69 A does not fit the rest');
  expect(await field.getAttribute('aria-describedby')).toBe(await note.getAttribute('id'));
  await field.fill('30');
  await field.press('Enter');
  await note.waitFor({ state: 'detached' });
  expect(problems).toEqual([]);
});
