/** Builds the page once, before the first browser test. BUILT=1 in the environment says that it stands already. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const repository = fileURLToPath(new URL('../../../..', import.meta.url));

export function setup(): void {
  if (process.env['BUILT'] === '1') return;
  execFileSync('npm', ['run', 'build', '-w', 'packages/web'], { cwd: repository, stdio: 'inherit' });
}
