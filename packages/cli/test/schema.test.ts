import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { schemaNamed, schemaNames } from '../src/commands/schema.ts';

const folder = new URL('../schema/', import.meta.url);
const own = schemaNames.filter((name) => name !== 'job');

describe('published schemas', () => {
  it('[rule] every schema has its file and every file its schema', () => {
    expect(readdirSync(folder).sort()).toEqual(own.map((name) => `${name}.schema.json`).sort());
  });

  it.each(own)('[rule] %s is current', (name) => {
    const published = readFileSync(new URL(`${name}.schema.json`, folder), 'utf8');
    expect(JSON.parse(published)).toEqual(JSON.parse(JSON.stringify(schemaNamed(name))));
  });
});
