import { Buffer } from 'node:buffer';
import { afterAll, expect, it } from 'vitest';
import { accessibilityViolations, closeBrowser, openApp, phone } from './browser/app.ts';
import { answered } from './browser/journey.ts';

afterAll(closeBrowser);

const plate = (value: number, unit: string) => ({ value, unit, origin: 'nameplate' });
const job = {
  format: 'ampwright-job',
  version: 1,
  id: 'job-that-hangs',
  title: 'A drop along one cable',
  boat: {
    template: 'one-battery',
    facts: {
      alternator_current: plate(70, 'A'),
      bank_capacity: plate(220, 'Ah'),
      bank_chemistry: 'flooded',
      regulator_place: 'inside',
      excitation: 'lamp',
      cable_area: plate(16, 'mm2'),
      cable_length: plate(1.5, 'm'),
    },
  },
  visits: [
    {
      id: 'visit-1',
      readings: [
        { id: 'r1', check: 'battery-volts-rest@battery', value: 12.44, unit: 'V' },
        { id: 'r2', check: 'alternator-amps-fast@alternator', value: 38, unit: 'A' },
        { id: 'r3', check: 'drop-cable@charge-cable', value: 0.75, unit: 'V' },
        { id: 'r4', check: 'drop-lugs@alternator', answer: 'at-a-lug' },
      ],
    },
  ],
};

it('[rule] a verdict that hangs on one reading asks for it again, and stands once it was read twice', async () => {
  const { page, problems } = await openApp({ context: { viewport: phone } });
  const buffer = Buffer.from(JSON.stringify(job));
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer });
  await page.getByText('The verdict hangs on one reading.').waitFor();
  expect(await accessibilityViolations(page)).toEqual([]);

  await page.getByRole('link', { name: /^Take again: Volts lost along one cable/ }).click();
  await page.getByRole('textbox', { name: /Volts lost along one cable/ }).fill('0.74');
  await page.getByRole('button', { name: 'Write down another' }).click();
  await answered(page);
  await page.locator('.note', { hasText: 'Enough is known' }).waitFor();
  expect(problems).toEqual([]);
});
