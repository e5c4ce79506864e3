/** Jobs in and out as files. */
import type { Job, Problem, UnitPreference } from '../work/contract.ts';
import { think } from '../work/thinker.ts';
import { putJob, storedJob } from './jobs.ts';
import { freshId } from './job-edits.ts';

export interface Refused {
  readonly file: string;
  readonly problems: readonly Problem[];
}

export interface Imported {
  readonly added: readonly Job[];
  readonly refused: readonly Refused[];
}

const largestFile = 40_000_000;

/** Takes files in. A job that is here already is kept: the newcomer becomes a copy beside it. */
export async function importFiles(files: readonly File[]): Promise<Imported> {
  const added: Job[] = [];
  const refused: Refused[] = [];
  for (const file of files) {
    if (file.size > largestFile) {
      refused.push({ file: file.name, problems: [tooLarge(file.size)] });
      continue;
    }
    const result = await importText(await file.text());
    added.push(...result.added);
    refused.push(...result.refused.map(({ problems }) => ({ file: file.name, problems })));
  }
  return { added, refused };
}

export async function importText(text: string): Promise<Imported> {
  const found = await think(`file ${freshId('read')}`, (thinking) => thinking.readFile(text));
  const added: Job[] = [];
  const refused: Refused[] = [];
  for (const parsed of found) {
    if (parsed.kind === 'problems') {
      refused.push({ file: '', problems: parsed.problems });
      continue;
    }
    const job = storedJob(parsed.job.id) ? { ...parsed.job, id: freshId('job') } : parsed.job;
    const readOnly = parsed.readOnly
      ? {
          why: 'This job comes from a newer version: it can be read here, not changed. Update the page to change it.',
          file: text,
        }
      : undefined;
    await putJob(job, readOnly);
    added.push(job);
  }
  return { added, refused };
}

/** The file of one job; one that came from a newer version goes out exactly as it came. */
export async function exportJob(id: string): Promise<void> {
  const stored = storedJob(id);
  if (!stored) return;
  const text =
    stored.readOnly?.file ?? (await think(`file ${id}`, (thinking) => thinking.writeFile(stored.job)));
  download(`${fileName(stored.job)}.json`, text);
}

/** The report as a PDF file, made here.  Errors: when fonts or layout cannot be had */
export async function exportReport(job: Job, units: UnitPreference): Promise<void> {
  const bytes = await think('pdf', (thinking) => thinking.pdf(job, units));
  download(`${fileName(job)}-report.pdf`, bytes, 'application/pdf');
}

export async function exportAll(jobs: readonly Job[]): Promise<void> {
  const text = await think('file all', (thinking) => thinking.writeFiles(jobs));
  download('ampwright-jobs.json', text);
}

function download(name: string, content: string | Uint8Array, type = 'application/json'): void {
  const address = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

function fileName(job: Job): string {
  const plain = (job.title ?? 'job')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);
  return `ampwright-${plain === '' ? 'job' : plain}`;
}

function tooLarge(size: number): Problem {
  return {
    kind: 'too-large',
    pointer: '',
    place: 'the whole file',
    value: `${Math.round(size / 1e6)} MB`,
    allowed: `at most ${largestFile / 1e6} MB`,
    advice: 'A job holds text only: check that this is the right file.',
  };
}
