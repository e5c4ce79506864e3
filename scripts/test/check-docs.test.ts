import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { complaints } from '../check-docs.ts';

describe('document checks', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'ampwright-docs-'));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  function complaintsOn(files: Record<string, string>): string[] {
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
    return complaints(folder, Object.keys(files));
  }

  it('[CommonMark 0.31, section 6.3] follows links to files, folders and headings', () => {
    const found = complaintsOn({
      'README.md':
        '# Top\n[a](docs/a.md) [b](docs/) [c](docs/a.md#second-part-its-end) [d](#top) [e](https://x.y)',
      'docs/a.md':
        '# A\n## Second part: its end\n[up](../README.md)\n`[code](no.md)`\n```\n[code](no.md)\n```\n',
    });
    expect(found).toEqual([]);
  });

  it('[CommonMark 0.31, section 6.3] complains about links that lead nowhere', () => {
    const found = complaintsOn({
      'README.md': '# Top\n[a](docs/b.md)\n![b](docs/c.png)\n[c](#bottom)\n[d](../outside.md)',
    });
    expect(found).toHaveLength(4);
  });

  it('[house rule] complains about a folder of one machine and a host in the lock file', () => {
    const home = ['', 'home', 'someone', 'x'].join('/');
    const found = complaintsOn({
      'a.ts': `read('${home}');\nread('/usr/bin/chromium');\nread('./home/x');`,
      'package-lock.json': '{ "resolved": "https://registry.example/x.tgz" }',
    });
    expect(found).toEqual([
      'a.ts:1: names a folder of one machine',
      'package-lock.json:1: the lock file names a host; npm install again',
    ]);
  });

  it('[house rule] asks for a way into each layer of the core', () => {
    const found = complaintsOn({
      'packages/core/src/units/a.ts': '',
      'packages/core/src/units/index.ts': '',
    });
    expect(found).toEqual(['packages/core/src/units/README.md is missing']);
  });
});
