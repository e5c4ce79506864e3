/** Runs the bundled command line as a user does: as a process of its own. */
import { execFileSync, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const packageFolder = fileURLToPath(new URL('..', import.meta.url));
export const repository = fileURLToPath(new URL('../../..', import.meta.url));
const bundle = `${packageFolder}dist/ampwright.js`;

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Builds the bundle from today's sources. */
export function buildBundle(): void {
  execFileSync('node', ['build.mjs'], { cwd: packageFolder });
}

/** One run of the command line; the input is closed after the text. */
export function ampwright(args: readonly string[], input = ''): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn('node', [bundle, ...args], { cwd: repository });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    // The other side may end before it has read all that it is sent.
    child.stdin.on('error', () => undefined);
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
    child.stdin.end(input);
  });
}
