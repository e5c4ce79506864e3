/** Takes docs/pictures/first-screen.png: an example's wiring, opened in the built page on a laptop. */
import { fileURLToPath } from 'node:url';
import { serve } from '@ampwright/server';
import { launchChromium } from '../packages/web/test/browser/chromium.ts';

const target = fileURLToPath(new URL('../docs/pictures/first-screen.png', import.meta.url));
const builtPage = fileURLToPath(new URL('../packages/web/dist', import.meta.url));

const server = await serve({ root: builtPage, port: 0 });
const browser = await launchChromium();
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  await page.goto(server.url);
  const examples = page.locator('section', { has: page.getByRole('heading', { name: 'Examples' }) });
  await examples
    .getByRole('button', { name: /outside regulator/i })
    .first()
    .click();
  await page.getByRole('list', { name: 'The four questions' }).waitFor({ timeout: 60_000 });
  await page.getByText('Working it out').waitFor({ state: 'hidden', timeout: 60_000 });
  await page.getByRole('link', { name: 'Wiring' }).click();
  await page.getByRole('heading', { name: 'Wiring' }).waitFor();
  await page.waitForLoadState('networkidle');
  await page.screenshot({ path: target, animations: 'disabled' });
  console.log(`took ${target}`);
} finally {
  await browser.close();
  await server.close();
}
