/** Reads job files with care and writes new files without touching old ones. */
import { existsSync, readFileSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { largestJob, parseJob, tooLarge, type ParsedJob } from '@ampwright/jobs';

/** Wrong use of the command line: exit code 2. */
export class WrongUse extends Error {}

/** The job of a file, or what is wrong with it.  Errors: WrongUse when there is no such file to read */
export function readJobFile(path: string): ParsedJob {
  let size: number;
  try {
    const found = statSync(path);
    if (found.isDirectory()) throw new WrongUse(`${path} is a folder; name a job file.`);
    size = found.size;
    // A character takes at most four bytes; beyond that the file need not be read to be refused.
    if (size > 4 * largestJob) return { kind: 'problems', problems: [tooLarge(size)] };
    return parseJob(readFileSync(path, 'utf8'));
  } catch (error) {
    if (error instanceof WrongUse) throw error;
    throw new WrongUse(`Cannot read ${path}: ${reasonOf(error)}`);
  }
}

/** Writes a file that must not exist yet.  Errors: WrongUse when it does, or cannot be written */
export function writeNewFile(path: string, text: string): void {
  try {
    writeFileSync(path, text, { flag: 'wx' });
  } catch (error) {
    throw new WrongUse(`Cannot write ${path}: ${reasonOf(error)}`);
  }
}

/** Refuses to let a report take the place of a job file.
 *  Errors: WrongUse when the target is the input or looks like a job file */
export function assertReportTarget(path: string, input: string): void {
  const same = existsSync(path) && existsSync(input) && realpathSync(path) === realpathSync(input);
  if (same || path.toLowerCase().endsWith('.json')) {
    throw new WrongUse(
      `${path} is or may be a job file; a report is not written over it. Choose another name.`,
    );
  }
}

/** Writes a report; an older report of that name is replaced.  Errors: WrongUse when it cannot be written */
export function writeReport(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content);
  } catch (error) {
    throw new WrongUse(`Cannot write ${path}: ${reasonOf(error)}`);
  }
}

function reasonOf(error: unknown): string {
  const code = (error as { code?: string }).code;
  if (code === 'ENOENT') return 'there is no such file or folder.';
  if (code === 'EEXIST') return 'it exists already, and is never overwritten.';
  if (code === 'EACCES' || code === 'EPERM') return 'permission denied.';
  return error instanceof Error ? error.message : String(error);
}
