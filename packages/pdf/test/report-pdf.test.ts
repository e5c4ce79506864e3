import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  boatFromTemplate,
  createSession,
  loopChart,
  ownerReport,
  remedyFor,
  riseChart,
  systemRules,
  type Reading,
  type Report,
} from '@ampwright/core';
import { reportPdf } from '../src/index.ts';
import { runsOf } from '../src/glyphs.ts';

const folder = mkdtempSync(join(tmpdir(), 'ampwright-pdf-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const { resolve } = createRequire(import.meta.url);
const readFont = (file: string): Promise<Uint8Array> => {
  const family = file.startsWith('alegreya-sans-') ? 'alegreya-sans' : 'alegreya';
  return Promise.resolve(readFileSync(resolve(`@fontsource/${family}/files/${file}`)));
};

/** Text of each page, as another program reads it. */
function pagesOf(pdf: Uint8Array): string[] {
  const file = join(folder, 'report.pdf');
  writeFileSync(file, pdf);
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  return text.split('\f').slice(0, -1);
}

const told = (value: number) => ({ value, origin: 'told' }) as const;
const description = boatFromTemplate('selector-switch', {
  alternatorCurrent: told(70),
  bankCapacity: told(400 * 3600),
  bankChemistry: 'flooded',
});
const session = createSession(description, { draws: 48 });
const readings: Reading[] = [
  { id: 'r1', check: 'battery-volts-rest@house', outcome: { kind: 'number', value: 12.31 } },
  { id: 'r2', check: 'battery-volts-fast@house', outcome: { kind: 'number', value: 12.87 }, sinceStart: 300 },
  { id: 'r3', check: 'stud-volts-fast@alternator', outcome: { kind: 'number', value: 14.93 } },
  { id: 'r4', check: 'look-belt@belt', outcome: { kind: 'answer', answer: 'good' } },
];
const verdict = session.diagnose(readings);
const loop = loopChart(session, readings);
const report = (words: { title: string; complaint: string }): Report =>
  ownerReport({
    ...words,
    description,
    visits: [{ date: '2026-05-11', readings }],
    verdict,
    remedy: remedyFor(description, verdict, { bands: session.predict(readings), readings }),
    checks: session.checks,
    bands: session.predict(readings),
    rules: systemRules(description),
    rise: riseChart(session, readings),
    ...(loop === undefined ? {} : { loop }),
    date: '2026-05-11',
  });

describe('report as PDF', () => {
  let pages: string[] = [];
  beforeAll(async () => {
    const complaint = 'Slow to charge. Ναι, Ωμέγα, Дрейф, Žižkov.';
    pages = pagesOf(await reportPdf(report({ title: 'Sloop at the pier', complaint }), readFont));
  });

  it('[rule] the owner’s part is page one, from complaint to signatures', () => {
    const [first = '', second = ''] = pages;
    for (const words of [
      'Sloop at the pier',
      'Slow to charge',
      'Is anything wrong?',
      'in 100',
      'Owner, date',
    ])
      expect(first).toContain(words);
    expect(first).not.toContain('Appendix for');
    expect(second).toContain('Appendix for the next electrician');
  });

  it('[rule] readings, bands, charts, cleared parts, proof and baseline within four pages', () => {
    const rest = pages.slice(1).join('\n');
    expect(pages.length).toBeLessThanOrEqual(5);
    for (const words of [
      '12.31 V',
      '14.93 V',
      'Tight, clean',
      'If all were well',
      'Rise of the',
      'Potential along the loop',
      'Cleared',
      'To prove it',
      'Baseline for next time',
    ])
      expect(rest).toContain(words);
  });

  it('[law] the letters of Latin, Greek and Cyrillic come through', () => {
    for (const word of ['Ναι', 'Ωμέγα', 'Дрейф', 'Žižkov']) expect(pages[0]).toContain(word);
  });

  it('[law] no part is called by its id', () => {
    const ids = description.parts.map(({ id }) => id).filter((id) => id.includes('-'));
    for (const id of ids) expect(pages.join('\n')).not.toContain(id);
  });

  it('[limit] hostile and endless text neither breaks it nor acts', async () => {
    const hostile = `<script>x</script> \u202e\u001b[31m 漢字 ${'W'.repeat(600)} ${'word '.repeat(1500)}`;
    const pdf = await reportPdf(report({ title: hostile.slice(0, 180), complaint: hostile }), readFont);
    expect(Buffer.from(pdf).toString('latin1')).not.toMatch(/\/(JavaScript|JS|Launch|URI)\b/);
    expect(pagesOf(pdf).join('\n')).toContain('Baseline for next time');
  });

  it('[law] runs keep every sign that a font has, in order', () => {
    const text = 'R = ρ20 · 2 Ω ≤ 3 mm², Ž, Д, 漢';
    expect(
      runsOf(text)
        .map((run) => run.text)
        .join(''),
    ).toBe('R = ρ20 · 2 Ω <= 3 mm², Ž, Д, ?');
  });
});
