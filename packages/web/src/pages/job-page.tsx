/** One job: title, headline, four questions, and the page of it that is open. */
import { lazy, Suspense, useEffect, useMemo } from 'react';
import { JobContext, type OpenJob } from '../state/job-context.tsx';
import { presentVisit } from '../state/job-edits.ts';
import { useJob, useJobs } from '../state/jobs.ts';
import { usePreferences, unitsOf } from '../state/preferences.ts';
import { jobAddress, type JobPage as PageName } from '../state/route.ts';
import { useThought } from '../work/use-thought.ts';
import { JobHead } from '../widgets/job-head.tsx';
import { JobIndex } from '../widgets/job-index.tsx';
import { JobMissing } from './job-missing.tsx';
import { NextCheckPage } from './next-check-page.tsx';
import { EntryPage } from './entry-page.tsx';
import { ReadingsPage } from './readings-page.tsx';
import { SuspectsPage } from './suspects-page.tsx';

const WiringPage = lazy(() => import('./wiring-page.tsx').then((m) => ({ default: m.WiringPage })));
const RisePage = lazy(() => import('./rise-page.tsx').then((m) => ({ default: m.RisePage })));
const LoopPage = lazy(() => import('./loop-page.tsx').then((m) => ({ default: m.LoopPage })));
const RemedyPage = lazy(() => import('./remedy-page.tsx').then((m) => ({ default: m.RemedyPage })));
const ReportPage = lazy(() => import('./report-page.tsx').then((m) => ({ default: m.ReportPage })));
const BoatPage = lazy(() => import('./boat-page.tsx').then((m) => ({ default: m.BoatPage })));
const VisitsPage = lazy(() => import('./visits-page.tsx').then((m) => ({ default: m.VisitsPage })));

interface Props {
  readonly id: string;
  readonly page: PageName;
  readonly item: string | undefined;
}

export function JobPage({ id, page, item }: Props) {
  const jobs = useJobs();
  const stored = useJob(id);
  const preferences = usePreferences();
  const units = useMemo(() => unitsOf(preferences), [preferences]);
  const job = stored?.job;
  const boat = useMemo(() => JSON.stringify(job?.boat), [job?.boat]);
  const question = useMemo(
    () => JSON.stringify([boat, job?.visits, preferences.skill]),
    [boat, job?.visits, preferences.skill],
  );

  const checks = useThought('checks', boat, async (thinking) => (job ? thinking.checks(job) : []));
  const verdict = useThought('verdict', question, async (thinking) =>
    job ? thinking.diagnose({ ...job, skill: preferences.skill }) : undefined,
  );

  useEffect(() => {
    document.title = job?.title ? `${job.title} · Ampwright` : 'Ampwright';
    window.scrollTo(0, 0);
  }, [job?.title, page, item]);

  if (!stored || !job) return jobs.kind === 'loading' ? null : <JobMissing />;
  const open: OpenJob = {
    job,
    visit: presentVisit(job),
    readOnly: stored.readOnly !== undefined,
    checks: checks.value ?? [],
    verdict: verdict as OpenJob['verdict'],
    units,
  };
  return (
    <JobContext value={open}>
      <div className="job" data-entry={page === 'readings' && item !== undefined}>
        <JobHead
          readOnly={stored.readOnly?.why}
          back={page === 'readings' && item !== undefined ? jobAddress(id) : undefined}
        />
        <JobIndex job={id} page={page} />
        <main className="sheet" id="content">
          <Suspense fallback={<p className="soft">Opening</p>}>
            <OpenPage page={page} item={item} />
          </Suspense>
        </main>
      </div>
    </JobContext>
  );
}

function OpenPage({ page, item }: { readonly page: PageName; readonly item: string | undefined }) {
  if (page === 'readings')
    return item === undefined ? <ReadingsPage /> : <EntryPage check={item} key={item} />;
  if (page === 'suspects') return <SuspectsPage />;
  if (page === 'wiring') return <WiringPage terminal={item} />;
  if (page === 'rise') return <RisePage />;
  if (page === 'loop') return <LoopPage />;
  if (page === 'remedy') return <RemedyPage />;
  if (page === 'report') return <ReportPage />;
  if (page === 'boat') return <BoatPage />;
  if (page === 'visits') return <VisitsPage />;
  return <NextCheckPage />;
}
