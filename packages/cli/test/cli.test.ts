import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseJob, z } from '@ampwright/jobs';
import { interviewOutShape, type InterviewOut } from '../src/interview-messages.ts';
import {
  checksShape,
  diagnosisShape,
  faultsShape,
  predictionShape,
  validationShape,
} from '../src/outputs.ts';
import { ampwright, buildBundle, repository, type Ran } from './run.ts';

const example = 'examples/dead-alternator.json';
const badFolder = 'packages/jobs/test/bad/';
let folder = '';

beforeAll(() => {
  buildBundle();
  folder = mkdtempSync(join(tmpdir(), 'ampwright-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lines = (text: string): string[] => text.split('\n');
const tooWide = (text: string): string[] => lines(text).filter((line) => line.length > 80);

describe('new', () => {
  it('[rule] writes a job that is good, and never over a file', async () => {
    const file = join(folder, 'new.json');
    const args = [
      'new',
      '-t',
      'selector-switch',
      '-f',
      'bank_capacity=400Ah',
      '-f',
      'cable_area=2 AWG',
      '-o',
      file,
    ];
    expect(await ampwright(args)).toEqual({ code: 0, out: '', err: '' });
    const text = readFileSync(file, 'utf8');
    expect(parseJob(text)).toMatchObject({ kind: 'job', notes: [] });
    const again = await ampwright(args);
    expect(again.code).toBe(2);
    expect(again.err).toContain('never overwritten');
    expect(readFileSync(file, 'utf8')).toBe(text);
  });

  it.each([
    [['new', '-t', 'selector'], 'selector-switch'],
    [['new', '-t', 'one-battery', '-f', 'bank_capacty=400Ah'], 'bank_capacity'],
    [['new', '-t', 'one-battery', '-f', 'bank_capacity=400 furlongs'], 'Ah'],
    [['new', '-t', 'one-battery', '-f', 'cable_length=-3m'], '0 to 100 m'],
    [['new', '-t', 'one-battery', '-f', 'excitation=candle'], 'lamp, ignition, none'],
    [['new', '-t', 'one-battery', '--date', 'yesterday'], '2026-05-17'],
    [['new'], '--template'],
    [['nonsense'], 'nonsense'],
    [['diagnose'], 'job'],
    [['diagnose', example, '--vist', 'x'], '--visit'],
    [['diagnose', example, '--visit', 'x'], 'visit-1'],
    [['diagnose', 'no-such-file.json'], 'no such file'],
    [['validate', 'examples'], 'folder'],
    [['diagnose', example, '--repaired', 'belt-brokn@belt'], 'belt-broken@belt'],
    [['diagnose', example, '--repaired', 'belt-broken@belt', '--visit', 'visit-1'], '--visit'],
    [['diagnose', example, '--out', 'after.json'], '--repaired'],
    [['schema', 'diagnosys'], 'diagnosis'],
    [['interview', example, '--max-asks', 'many'], 'whole number'],
    [['report', example, '--html', example], 'not written over'],
    [['report', example, '--pdf', example], 'not written over'],
  ])('[rule] wrong use %j: exit code 2, and what is allowed on standard error', async (args, words) => {
    const ran = await ampwright(args);
    expect(ran.code).toBe(2);
    expect(ran.out).toBe('');
    expect(ran.err).toContain(words);
  });
});

describe('bad job files', () => {
  const files = readdirSync(join(repository, badFolder));

  it('[rule] every one: exit code 1, a message, nothing lost', async () => {
    for (const file of files) {
      const path = badFolder + file;
      const before = readFileSync(join(repository, path));
      const ran = await ampwright(['diagnose', path]);
      expect([file, ran.code, ran.out]).toEqual([file, 1, '']);
      expect(ran.err).toContain('allowed');
      expect(ran.err).toContain(file);
      expect(readFileSync(join(repository, path)).equals(before)).toBe(true);
    }
  });

  it('[rule] 100 MB are refused by their size', async () => {
    const path = join(folder, 'huge.json');
    writeFileSync(path, `{"format":"ampwright-job","note":"${'x'.repeat(100_000_000)}"}`);
    const ran = await ampwright(['validate', path, '--json']);
    expect(ran.code).toBe(1);
    expect(z.parse(validationShape, JSON.parse(ran.out)).problems[0]).toMatchObject({
      kind: 'too-large',
      value: '100 MB',
    });
  });

  it('[rule] a job of a newer version is shown, with exit code 1 and what to update', async () => {
    const path = join(folder, 'newer.json');
    const job = JSON.parse(readFileSync(join(repository, example), 'utf8')) as object;
    writeFileSync(path, JSON.stringify({ ...job, version: 9, rig: 'ketch' }));
    const ran = await ampwright(['checks', path]);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('Update this program');
    expect(ran.out).toContain('battery-volts-rest@battery');
  });

  it('[rule] a hostile file drives no terminal and no page', async () => {
    const path = join(folder, 'hostile.json');
    const page = join(folder, 'hostile.html');
    const job = JSON.parse(readFileSync(join(repository, example), 'utf8')) as object;
    const markup = '\u001b[2J<script>alert(1)</script>\u202e';
    writeFileSync(path, JSON.stringify({ ...job, title: markup, complaint: `${markup}" onload="x` }));
    const { code, out } = await ampwright(['report', path]);
    expect(code).toBe(0);
    // eslint-disable-next-line no-control-regex
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    expect(await ampwright(['report', path, '--html', page])).toEqual({ code: 0, out: '', err: '' });
    const html = readFileSync(page, 'utf8');
    expect(html).not.toContain('<script');
    expect(html).not.toContain('" onload');
    expect(html).toContain('&lt;script');
  });

  it('[rule] the report as PDF comes from the bundle alone, fonts and all, beside HTML in one run', async () => {
    const [pdf, html] = [join(folder, 'report.pdf'), join(folder, 'report.html')];
    expect(await ampwright(['report', example, '--pdf', pdf, '--html', html])).toEqual({
      code: 0,
      out: '',
      err: '',
    });
    const text = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' });
    for (const words of ['Is anything wrong?', 'Owner, date', 'Appendix', 'Baseline for next time'])
      expect(text).toContain(words);
    expect(readFileSync(html, 'utf8')).toContain('Is anything wrong?');
  });
});

describe('outputs', () => {
  it.each([
    ['validate', validationShape, [example]],
    ['diagnose', diagnosisShape, [example]],
    ['report', diagnosisShape, [example]],
    ['predict', predictionShape, [example]],
    ['checks', checksShape, []],
    ['checks', checksShape, [example]],
    ['faults', faultsShape, []],
    ['faults', faultsShape, [example]],
  ])('[rule] %s --json keeps its schema to the letter', async (command, shape, args) => {
    const ran = await ampwright([command, ...args, '--json']);
    expect(ran.err).toBe('');
    expect(ran.code).toBe(0);
    z.parse(shape, JSON.parse(ran.out));
  });

  it.each(['predict', 'checks', 'faults', 'report'])(
    '[rule] %s fits eighty columns, without colour',
    async (command) => {
      const { code, out } = await ampwright([command, example]);
      expect(code).toBe(0);
      expect(tooWide(out)).toEqual([]);
      expect(out).not.toContain('\u001b');
    },
  );

  it('[rule] diagnose: the four questions first, then suspects; eighty columns; the same words each time', async () => {
    const first = await ampwright(['diagnose', example]);
    const places = ['Making?', 'Arriving?', 'Enough?', 'Lasting?', 'Suspects'].map((word) =>
      first.out.indexOf(word),
    );
    expect(places.every((place) => place >= 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(tooWide(first.out)).toEqual([]);
    expect(await ampwright(['diagnose', example])).toEqual(first);
  });

  it('[rule] the catalogue has every check in a form that a program can use', async () => {
    const { checks } = z.parse(checksShape, JSON.parse((await ampwright(['checks', '--json'])).out));
    // At least 24 checks are asked for by the plan of the first release.
    expect(checks.length).toBeGreaterThanOrEqual(24);
    expect(checks.every((check) => check.example_on !== undefined)).toBe(true);
    expect(new Set(checks.map((check) => check.check)).size).toBe(checks.length);
  });
});

describe('repairs', () => {
  it('[rule] what was put right is written as a new visit, and is a suspect no more', async () => {
    const file = join(folder, 'after-repair.json');
    const before = await ampwright(['diagnose', example, '--json']);
    const found = z.parse(diagnosisShape, JSON.parse(before.out)).suspects[0]!.id;
    const ran = await ampwright(['diagnose', example, '--repaired', found, '--out', file, '--json']);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const after = z.parse(diagnosisShape, JSON.parse(ran.out));
    expect(after.repaired).toEqual([found]);
    expect(after.suspects.map(({ id }) => id)).not.toContain(found);
    expect(after.readings.every(({ after_repair_of: repairs }) => repairs.length === 0)).toBe(true);
    expect(parseJob(readFileSync(file, 'utf8'))).toMatchObject({ kind: 'job', notes: [] });
    expect(await ampwright(['diagnose', file, '--json'])).toEqual(ran);
    const told = await ampwright(['diagnose', file]);
    expect(told.out).toContain(`[${found}]`);
    expect(told.out).toContain('before the repair');
    expect(tooWide(told.out)).toEqual([]);
  });
});

describe('interview', () => {
  const messages = ({ out }: Ran): InterviewOut[] =>
    lines(out)
      .filter((line) => line !== '')
      .map((line) => z.parse(interviewOutShape, JSON.parse(line)));

  it('[rule] an input that is empty brings hello, an ask or none, and the verdict', async () => {
    const ran = await ampwright(['interview', example]);
    expect(ran.code).toBe(0);
    expect(ran.err).toBe('');
    const heard = messages(ran);
    expect(heard[0]!.type).toBe('hello');
    expect(heard.at(-1)!.type).toBe('verdict');
  });

  it('[rule] garbage, answers in any order and an unfinished last line end in one verdict', async () => {
    const file = join(folder, 'plain.json');
    await ampwright(['new', '-t', 'one-battery', '-o', file]);
    const said = [
      'hello?',
      '{"type":"answer"',
      '[]',
      'null',
      '{"type":"answer","ask":77,"value":1}',
      '{"type":"reading","check":"battery-volts-rest","value":12.4}',
      '{"type":"reading","check":"battery-volts-fast@battery","value":14.1,"unit":"V"}',
      '{"type":"why"}',
      `{"type":"answer","reason":"${'x'.repeat(300_000)}"}`,
      '{"type":"answer","cannot":true}',
      '{"type":"stop"',
    ].join('\r\n');
    const ran = await ampwright(['interview', file, '--max-asks', '4'], said);
    expect(ran.code).toBe(0);
    const heard = messages(ran);
    expect(heard.filter((message) => message.type === 'verdict')).toHaveLength(1);
    expect(heard.at(-1)!.type).toBe('verdict');
    expect(heard.filter((message) => message.type === 'error').length).toBeGreaterThanOrEqual(5);
    expect(heard.filter((message) => message.type === 'noted').map((message) => message.check)).toEqual(
      expect.arrayContaining(['battery-volts-rest@battery', 'battery-volts-fast@battery']) as string[],
    );
  });

  it('[rule] a bad job: exit code 1, nothing on standard output', async () => {
    const ran = await ampwright(['interview', `${badFolder}unknown-unit.length.json`]);
    expect([ran.code, ran.out]).toEqual([1, '']);
  });
});
