import { describe, expect, it } from 'vitest';
import { checkCatalogue as checks } from '../../src/checks/index.ts';

// What kills, maims or blinds, as common practice and the makers' manuals warn of it: explosion, propeller, belt, acid.
const grave = [/^Full field/, /^Petrol/, /propeller/, /clear of belt and fan/, /^Battery acid/];
const isGrave = (caution: string) => grave.some((pattern) => pattern.test(caution));

describe('[rule] cautions stand gravest first', () => {
  it('in every check what kills, maims or blinds stands before the rest', () => {
    for (const { id, cautions } of checks) {
      const standings = cautions.map(isGrave);
      expect(standings.lastIndexOf(true), id).toBeLessThan(
        standings.includes(false) ? standings.indexOf(false) : standings.length,
      );
    }
    expect(new Set(checks.flatMap(({ cautions }) => cautions).filter(isGrave)).size).toBe(grave.length);
  });

  it('two cautions stand in the same order wherever both are given', () => {
    const before = new Set<string>();
    for (const { id, cautions } of checks) {
      cautions.forEach((first, at) => {
        for (const second of cautions.slice(at + 1)) {
          expect(before.has(`${second} < ${first}`), `${id}: ${first}`).toBe(false);
          before.add(`${first} < ${second}`);
        }
      });
    }
  });
});
