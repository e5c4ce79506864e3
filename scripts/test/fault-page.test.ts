import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { faultPage, faultPagePath } from '../fault-page.ts';

it('[rule] the page of faults says what the catalogue says; if not, npm run docs:faults', async () => {
  expect(readFileSync(faultPagePath, 'utf8')).toBe(await faultPage());
});
