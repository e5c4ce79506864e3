/** Jobs in and out as files. */
import type { Job, Problem, UnitPreference } from '../work/contract.ts';
import { think } from '../work/thinker.ts';
import { allJobs, putJob, storedJob } from './jobs.ts';
import { keepPhoto, photoNames, photoOf } from './photos.ts';
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
  const pictures = files.filter(isPicture);
  for (const file of files.filter((one) => !isPicture(one))) {
    if (file.size > largestFile) {
      refused.push({ file: file.name, problems: [tooLarge(file.size)] });
      continue;
    }
    const result = await importText(await file.text());
    added.push(...result.added);
    refused.push(...result.refused.map(({ problems }) => ({ file: file.name, problems })));
  }
  for (const picture of pictures) refused.push(...(await importPhoto(picture)));
  return { added, refused };
}

const isPicture = ({ type }: File): boolean => type.startsWith('image/');

/** Takes a picture back that a job here names; the job's file must have come first, or with it. */
async function importPhoto(file: File): Promise<readonly Refused[]> {
  const refuse = (value: string, advice: string): readonly Refused[] => [
    {
      file: file.name,
      problems: [
        {
          kind: 'not-a-job',
          pointer: '',
          place: 'the photo',
          value,
          allowed: 'a photo of a job here',
          advice,
        },
      ],
    },
  ];
  if (!allJobs().some((job) => photoNames(job).includes(file.name)))
    return refuse(
      'no job here names it',
      'Bring in the job’s file first, or with it; keep the photo’s name as it is.',
    );
  const result = await keepPhoto(file, file.name);
  return result.kind === 'kept' ? [] : refuse('cannot be kept', result.why);
}

/** The photos of a job as files beside it. Returns how many stand on this device. */
export async function exportPhotos(job: Job): Promise<number> {
  let found = 0;
  for (const name of photoNames(job)) {
    const picture = await photoOf(name);
    if (!picture) continue;
    found++;
    download(name, picture, 'image/jpeg');
  }
  return found;
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

function download(name: string, content: string | Uint8Array | Blob, type = 'application/json'): void {
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
