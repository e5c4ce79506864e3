import { describe, expect, it } from 'vitest';
import { boatFromTemplate } from '../../src/boat/index.ts';
import { createSession, loopChart, riseChart } from '../../src/diagnosis/index.ts';
import type { Reading } from '../../src/readings/index.ts';
import { remedyFor, systemRules } from '../../src/remedy/index.ts';
import { ownerReport, reportHtml, reportText, type Block } from '../../src/report/index.ts';

const hostile = '<img src=x onerror=alert(1)>"\'&\u202e\u001b[31m';
const told = (value: number) => ({ value, origin: 'told' }) as const;
const description = boatFromTemplate('one-battery', {
  alternatorCurrent: told(50),
  bankCapacity: told(400 * 3600),
  bankChemistry: 'flooded',
});
const session = createSession(description, { draws: 48 });
const readings: Reading[] = [
  { id: 'r1', check: 'battery-volts-rest@battery', outcome: { kind: 'number', value: 11.6 } },
  {
    id: 'r2',
    check: 'battery-volts-fast@battery',
    outcome: { kind: 'number', value: 12.3 },
    sinceStart: 300,
  },
  { id: 'r3', check: 'look-belt@belt', outcome: { kind: 'answer', answer: 'good' } },
  { id: 'r4', check: 'alternator-amps-fast@alternator', outcome: { kind: 'could-not' } },
];
const verdict = session.diagnose(readings);
const bands = session.predict(readings);
const loop = loopChart(session, readings);
const report = ownerReport({
  title: `Flat bank ${hostile}`,
  complaint: `It does not charge. ${hostile}`,
  description,
  visits: [{ date: '2026-05-11', note: hostile, readings }],
  verdict,
  remedy: remedyFor(description, verdict, { bands, readings }),
  checks: session.checks,
  bands,
  rules: systemRules(description),
  rise: riseChart(session, readings),
  ...(loop === undefined ? {} : { loop }),
  date: '2026-11-25',
});

describe('report', () => {
  it('[law] the owner reads what was complained of, what it is and how sure, what to do, what it costs', () => {
    const headings = report.owner.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
    expect(headings.slice(0, 5)).toEqual([
      'What was complained of',
      'Is anything wrong?',
      'What it is',
      'The four questions',
      'What to do, and about what it costs',
    ]);
    const words = JSON.stringify(report.owner);
    expect(words).toContain(verdict.suspects[0]!.ownerWords);
    expect(words).toMatch(/in 100\)/);
    expect(report.owner.at(-1)!.kind).toBe('signatures');
  });

  it('[law] no chance is ever told as 0 or 100 in 100', () => {
    expect(`${reportText(report)}${reportHtml(report)}`).not.toMatch(/[^\d](0|100) in 100/);
  });

  it('[law] every reading stands in the appendix, in order, with its healthy band', () => {
    const table = report.appendix.find(
      (block): block is Extract<Block, { kind: 'table' }> => block.kind === 'table',
    )!;
    expect(table.rows.map((row) => row[1])).toEqual([
      '11.60 V',
      '12.30 V',
      expect.stringMatching(/^Tight/),
      'could not be done',
    ]);
    expect(table.rows[1]![0]).toContain('5 min after start');
    for (const row of table.rows.slice(0, 2)) expect(row[2]).toMatch(/^[\d.]+ to [\d.]+ V$/);
  });

  it('[limit] nothing from a job file becomes markup or steers a terminal', () => {
    const html = reportHtml(report);
    expect(html).not.toContain('<img');
    expect(html).toContain('&lt;img src=x onerror=alert(1)&gt;');
    expect(html).not.toMatch(/<script|javascript:|\son[a-z]+="/i);
    // eslint-disable-next-line no-control-regex
    expect(html + reportText(report)).not.toMatch(/[\u001b\u202e]/);
  });

  it('[law] the page stands alone: nothing is fetched', () => {
    const html = reportHtml(report);
    expect(html).toContain("default-src 'none'");
    expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|url\(|<link|@import/);
    expect(html.match(/<svg/g)).toHaveLength(2);
    expect(html).not.toContain('NaN');
  });

  it('[law] text keeps to eighty columns', () => {
    const longest = Math.max(
      ...reportText(report)
        .split('\n')
        .map((line) => line.length),
    );
    expect(longest).toBeLessThanOrEqual(80);
  });
});
