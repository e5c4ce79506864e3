import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { importReport } from '../check-imports.ts';

describe('import rules', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'ampwright-imports-'));
    write('packages/core/src/units/a.ts', 'export const a = 1;');
    write('packages/core/src/physics/b.ts', 'export const b = 1; export type B = number;');
    write('packages/core/src/faults/c.ts', 'export const c = 1;');
    write('packages/jobs/src/d.ts', 'export const d = 1;');
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  function write(path: string, text: string): void {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }

  it('[house rule] lets a higher layer import a lower one, and a face the packages below it', async () => {
    write('packages/core/src/diagnosis/e.ts', "export { b } from '../physics/b.ts';");
    write('packages/web/src/f.tsx', "export { d } from '../../jobs/src/d.ts';");
    const { violations, seen, unseen } = await importReport(folder);
    expect(violations).toEqual([]);
    expect(seen).toHaveLength(6);
    expect(unseen).toEqual([]);
  });

  it.each([
    ['core-units', 'packages/core/src/units/bad.ts', "export { b } from '../physics/b.ts';"],
    ['core-units', 'packages/core/src/units/bad.ts', "export type { B } from '../physics/b.ts';"],
    ['core-checks', 'packages/core/src/checks/bad.ts', "export { c } from '../faults/c.ts';"],
    ['core-layers-known', 'packages/core/src/extra/bad.ts', "export { a } from '../units/a.ts';"],
    ['package-core', 'packages/core/src/report/bad.ts', "export { d } from '../../../jobs/src/d.ts';"],
    ['package-server', 'packages/server/src/bad.ts', "export { d } from '../../jobs/src/d.ts';"],
    ['core-uses-no-host', 'packages/core/src/report/bad.ts', "export { join } from 'node:path';"],
    ['resolvable', 'packages/jobs/src/bad.ts', "export { x } from './nowhere.ts';"],
    ['no-test-in-source', 'packages/jobs/src/bad.ts', "export { t } from '../test/t.ts';"],
    ['no-cycle', 'packages/jobs/src/bad.ts', "import './bad.ts';"],
  ])('[house rule] %s refuses %s: %s', async (rule, path, text) => {
    write('packages/jobs/test/t.ts', 'export const t = 1;');
    write(path, text);
    const { violations } = await importReport(folder);
    expect(violations.map((violation) => violation.split(':')[0])).toContain(rule);
  });
});
