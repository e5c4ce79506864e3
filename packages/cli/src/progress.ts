/** Progress of long work on standard error: nothing for the first second, then a line a second. */
import process from 'node:process';

const EVERY = 1000; // ms

/** Says how far the work is; it always goes on. */
export function progressOf(): (what: string, done: number) => true {
  let said = Date.now();
  return (what, done) => {
    const now = Date.now();
    if (now - said >= EVERY && done < 1) {
      said = now;
      process.stderr.write(`ampwright: ${what}: ${Math.round(100 * done)} %\n`);
    }
    return true;
  };
}
