import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const program = fileURLToPath(new URL('./allocation-program.ts', import.meta.url));

/** In a process of its own: there garbage can be collected on demand, and nothing else runs. */
function bytesPerSolve(what: 'circuit' | 'plant'): number {
  const node = ['--expose-gc', '--max-semi-space-size=64', '--import', 'tsx', program, what];
  return Number(execFileSync(process.execPath, node, { encoding: 'utf8' }));
}

// 16 bytes are the new resistance that each solve is given, put into its field. One number boxed in a solve, out of
// thousands that are worked out, would make it 32.
test.each(['circuit', 'plant'] as const)(
  '[law] a warm solve of a %s makes nothing on the heap',
  (what) => {
    expect(bytesPerSolve(what)).toBeLessThan(24);
  },
  60_000,
);
