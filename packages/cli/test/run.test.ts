import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseJob } from '@ampwright/jobs';
import { runShape } from '../src/commands/run-shape.ts';
import { ampwright, buildBundle } from './run.ts';

const example = 'examples/isolator-starves-house.json';
let folder = '';

beforeAll(() => {
  buildBundle();
  folder = mkdtempSync(join(tmpdir(), 'ampwright-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('run', () => {
  it('[rule] what-ifs stand beside the boat as it is; JSON keeps its schema; eighty columns', async () => {
    const args = ['run', example, '--phase', 'running 2h 1500rpm', '--charge', 'house=50%', '--what-if'];
    const json = await ampwright([...args, '--json']);
    expect(json.code).toBe(0);
    const shape = runShape.parse(JSON.parse(json.out));
    const second = shape.what_if!.find(({ id }) => id === 'second-alternator')!;
    // A diode isolator loses 0.7 to 1 V (common practice); a machine for each bank does not.
    expect(shape.figures.path_loss_v - second.figures.path_loss_v).toBeGreaterThan(0.5);
    const text = await ampwright(args);
    expect(text.out).toContain(second.name);
    expect(text.out.split('\n').filter((line) => line.length > 80)).toEqual([]);
  });

  it('[rule] weeks of use and bands keep the schema, and a kept what-if is a job that runs', async () => {
    const file = join(folder, 'kept.json');
    const kept = await ampwright(['run', example, '--keep', 'second-alternator=140A', '--out', file]);
    expect(kept.code).toBe(0);
    expect(kept.err).toContain('without visits');
    const parsed = parseJob(readFileSync(file, 'utf8'));
    expect(parsed.kind).toBe('job');
    const weeks = await ampwright([
      ...['run', file, '--phase', 'running 3h 1600rpm', '--days', '10', '--charge', 'house=80%'],
      ...['--bands', '--json'],
    ]);
    const shape = runShape.parse(JSON.parse(weeks.out));
    expect(shape.days).toHaveLength(10);
    expect(shape.bands!.draws).toBe(100);
    expect((await ampwright(['run', example, '--keep', 'second-alternator', '--out', file])).code).toBe(2);
  }, 60_000);

  it('[rule] what cannot be asked for is wrong use, with what can', async () => {
    for (const [args, words] of [
      [['--what-if', 'larger-alternator=9000A'], 'larger-alternator=9000A'],
      [['--what-if', 'larger-altenator'], 'Did you mean larger-alternator?'],
      [['--days', '0'], '--days 0'],
      [['--keep', 'thicker-cable'], '--out'],
      [['--phase', 'sailing 2h'], 'running'],
    ] as const) {
      const { code, err } = await ampwright(['run', example, ...args]);
      expect(code, args.join(' ')).toBe(2);
      expect(err).toContain(words);
    }
  });
});
