/** A job that is being begun, kept from the first tap so that nothing has to be said twice. */
import { useMemo } from 'react';
import type { Job, JobFacts, TemplateId } from '../work/contract.ts';
import { think } from '../work/thinker.ts';
import { noticedBy } from '../words/facts.ts';
import { useDraft } from './draft.ts';
import { freshId, today } from './job-edits.ts';
import { putJob } from './jobs.ts';

export type Step = 'complaint' | 'template' | 'facts';

export interface NewJob {
  readonly step: Step;
  readonly name: string;
  readonly complaint: string;
  readonly template: TemplateId | undefined;
  readonly facts: JobFacts;
}

const blank: NewJob = { step: 'complaint', name: '', complaint: '', template: undefined, facts: {} };

export function useNewJob(): readonly [NewJob, (change: Partial<NewJob>) => void, () => void] {
  const [text, setText] = useDraft('new-job');
  const draft = useMemo(
    () => ({ ...blank, ...(text === '' ? {} : (JSON.parse(text) as Partial<NewJob>)) }),
    [text],
  );
  const change = (part: Partial<NewJob>) => setText(JSON.stringify({ ...draft, ...part }));
  return [draft, change, () => setText('')];
}

/** Makes the job and puts it in the database. */
export async function createJob({ name, complaint, template, facts }: NewJob): Promise<Job> {
  const title = [name.trim(), complaint.trim()].find((words) => words !== '') ?? 'Untitled job';
  const job = await think('new job', (thinking) =>
    thinking.newJob({
      template: template ?? 'one-battery',
      facts,
      ids: { job: freshId('job'), visit: 'visit-1' },
      title,
      ...(complaint.trim() === '' ? {} : { complaint: complaint.trim() }),
      date: today(),
    }),
  );
  const told = withNoticed(job, noticedBy[complaint]);
  await putJob(told);
  return told;
}

/** The complaint as the owner's answer on the first visit. */
function withNoticed(job: Job, answer: string | undefined): Job {
  if (answer === undefined) return job;
  const reading = {
    id: freshId('reading'),
    check: 'ask-noticed',
    answer,
    taken_at: new Date().toISOString(),
    photos: [],
  };
  return {
    ...job,
    visits: job.visits.map((visit) => ({ ...visit, readings: [...visit.readings, reading] })),
  };
}
