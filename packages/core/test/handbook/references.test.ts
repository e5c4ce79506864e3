import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import references from '../../data/references.json' with { type: 'json' };
import { citationOf, seenWords } from '../../src/handbook/citation.ts';

const ids = new Set(references.references.map((entry) => entry.id));
const core = new URL('../../', import.meta.url);

function texts(folder: string, ending: string): { file: string; text: string }[] {
  const directory = new URL(folder, core);
  return readdirSync(directory)
    .filter((file) => file.endsWith(ending))
    .map((file) => ({ file, text: readFileSync(new URL(file, directory), 'utf8') }));
}

describe('references', () => {
  it('[law] ids are unique and every mark has its words', () => {
    expect(ids.size).toBe(references.references.length);
    for (const entry of references.references) expect(Object.keys(seenWords), entry.id).toContain(entry.seen);
  });

  it('[law] every source cited in the handbook and its tables is listed', () => {
    const missing: string[] = [];
    const note = (file: string, id: string) => {
      if (!ids.has(id)) missing.push(`${id} in ${file}`);
    };
    for (const folder of ['src/units/', 'src/handbook/', 'test/units/', 'test/handbook/'])
      for (const { file, text } of texts(folder, '.ts')) {
        for (const match of text.matchAll(/\[([A-Z][A-Z0-9]*[A-Z0-9])(?=[\],;( ])/g)) note(file, match[1]!);
        if (folder.startsWith('src'))
          for (const match of text.matchAll(/source: '([^']+)'/g)) note(file, match[1]!);
      }
    for (const { file, text } of texts('data/handbook/', '.json'))
      for (const match of text.matchAll(/"reference": "([^"]+)"/g)) note(file, match[1]!);
    expect(missing).toEqual([]);
  });

  it('[law] no figure of the handbook is marked better than its source', () => {
    // Best first; a table may be weaker than its source, never stronger.
    const order = ['S', 'S2', 'D', 'M', 'C'];
    for (const { file, text } of texts('data/handbook/', '.json'))
      visit(JSON.parse(text), (reference, seen) => {
        const source = references.references.find((entry) => entry.id === reference)!;
        expect(order.indexOf(seen), `${reference} in ${file}`).toBeGreaterThanOrEqual(
          order.indexOf(source.seen),
        );
      });
  });

  it("[limit] a mark that does not exist is a caller's mistake", () => {
    expect(() => citationOf({ reference: 'E11', clause: '', edition: '', seen: 'X' })).toThrow(
      /seen "X" of E11/,
    );
  });
});

function visit(node: unknown, found: (reference: string, seen: string) => void): void {
  if (typeof node !== 'object' || node === null) return;
  const { reference, seen } = node as { reference?: unknown; seen?: unknown };
  if (typeof reference === 'string' && typeof seen === 'string') found(reference, seen);
  for (const child of Object.values(node)) visit(child, found);
}
