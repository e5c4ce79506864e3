/** The edits that a person can make to a job, each of which can be undone. */
import type { Job, JobBoat, JobReading, JobVisit } from '../work/contract.ts';
import { edit } from './edits.ts';

/** The visit that is being written: the last one. */
export function presentVisit(job: Job): JobVisit | undefined {
  return job.visits.at(-1);
}

/** Writes a reading down in the present visit, in place of the one with the same id. */
export function writeReading(jobId: string, reading: JobReading, words: string): void {
  edit(jobId, {
    words,
    make: (job) => withReading(job, reading.id, reading),
    takeBack: (before) => {
      const earlier = presentVisit(before)?.readings.find(({ id }) => id === reading.id);
      return (job) => withReading(job, reading.id, earlier);
    },
  });
}

export function strikeReading(jobId: string, reading: JobReading, words: string): void {
  edit(jobId, {
    words,
    make: (job) => withReading(job, reading.id, undefined),
    takeBack: () => (job) => withReading(job, reading.id, reading),
  });
}

export function changeBoat(jobId: string, words: string, change: (boat: JobBoat) => JobBoat): void {
  edit(jobId, {
    words,
    make: (job) => ({ ...job, boat: change(job.boat) }),
    takeBack: (before) => (job) => ({ ...job, boat: before.boat }),
  });
}

type Heading = Pick<Job, 'title' | 'complaint'>;

export function changeHeading(jobId: string, heading: Heading): void {
  edit(jobId, {
    words: 'title and complaint',
    make: (job) => ({ ...job, ...heading }),
    takeBack:
      ({ title, complaint }) =>
      (job) => {
        const { title: _title, complaint: _complaint, ...rest } = job;
        return {
          ...rest,
          ...(title === undefined ? {} : { title }),
          ...(complaint === undefined ? {} : { complaint }),
        };
      },
  });
}

/** Changes the visit being written, apart from its readings. */
export function changeVisit(jobId: string, words: string, change: (visit: JobVisit) => JobVisit): void {
  edit(jobId, {
    words,
    make: (job) => withVisit(job, change),
    takeBack: (before) => {
      const earlier = presentVisit(before);
      return (job) =>
        withVisit(job, (visit) =>
          earlier?.id === visit.id ? { ...earlier, readings: visit.readings } : visit,
        );
    },
  });
}

export function beginVisit(jobId: string, visit: JobVisit, words = 'new visit'): void {
  edit(jobId, {
    words,
    make: (job) => ({ ...job, visits: [...job.visits, visit] }),
    takeBack: () => (job) => ({ ...job, visits: job.visits.filter(({ id }) => id !== visit.id) }),
  });
}

/** Notes that a fault was put right: before a new visit's readings, or with what was put right before the present one's first. */
export function putRight(job: Job, fault: string): void {
  const words = 'put right';
  if (presentVisit(job)?.readings.length === 0) {
    changeVisit(job.id, words, (visit) => ({ ...visit, repairs: [...(visit.repairs ?? []), fault] }));
    return;
  }
  const visit = {
    id: freshId('visit'),
    date: today(),
    repairs: [fault],
    readings: [],
    baseline: false,
  };
  beginVisit(job.id, visit, words);
}

/** Today as a date of the calendar here. */
export function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** A short id that is new in all likelihood. */
export function freshId(prefix: string): string {
  return `${prefix}-${crypto.randomUUID().slice(0, 8)}`;
}

function withVisit(job: Job, change: (visit: JobVisit) => JobVisit): Job {
  const visits = job.visits.length > 0 ? job.visits : [firstVisit()];
  return {
    ...job,
    visits: visits.map((visit, index) => (index === visits.length - 1 ? change(visit) : visit)),
  };
}

function withReading(job: Job, id: string, reading: JobReading | undefined): Job {
  return withVisit(job, (visit) => {
    const known = visit.readings.some((other) => other.id === id);
    if (reading === undefined)
      return { ...visit, readings: visit.readings.filter((other) => other.id !== id) };
    if (!known) return { ...visit, readings: [...visit.readings, reading] };
    return { ...visit, readings: visit.readings.map((other) => (other.id === id ? reading : other)) };
  });
}

function firstVisit(): JobVisit {
  return { id: 'visit-1', date: today(), readings: [], baseline: false };
}
