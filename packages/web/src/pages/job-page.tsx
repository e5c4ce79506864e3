/** One job: title, headline, four questions, and the page of it that is open. */
import { lazy, memo, Suspense, useDeferredValue, useEffect, useMemo } from 'react';
import { JobContext, type OpenJob } from '../state/job-context.tsx';
import { presentVisit } from '../state/job-edits.ts';
import { useJob, useJobs, type StoredJob } from '../state/jobs.ts';
import { usePreferences, unitsOf } from '../state/preferences.ts';
import { jobAddress, type JobPage as PageName } from '../state/route.ts';
import { nothingToSay } from '../work/boat-review.ts';
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
const ChargePage = lazy(() => import('./charge-page.tsx').then((m) => ({ default: m.ChargePage })));
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
  if (!stored) return jobs.kind === 'loading' ? null : <JobMissing />;
  return <OpenedJob stored={stored} page={page} item={item} />;
}

function OpenedJob({ stored, page, item }: Omit<Props, 'id'> & { readonly stored: StoredJob }) {
  const { id, job } = stored;
  const preferences = usePreferences();
  const units = useMemo(() => unitsOf(preferences), [preferences]);
  const asked = useMemo(() => ({ ...job, skill: preferences.skill }), [job, preferences.skill]);
  const boat = useMemo(() => JSON.stringify(asked.boat), [asked.boat]);
  const question = useMemo(() => JSON.stringify([asked.boat, asked.visits, asked.skill]), [asked]);

  const checks = useThought('checks', boat, async (thinking) => thinking.checks(asked));
  const faultNames = useThought('fault names', boat, async (thinking) => thinking.faultNames(asked));
  const verdict = useThought('verdict', question, async (thinking) => thinking.diagnose(asked));
  const bands = useThought('bands', question, async (thinking) => thinking.bands(asked));

  const review = useThought('review', boat, async (thinking) => thinking.review(asked));

  useEffect(() => {
    document.title = job.title ? `${job.title} · Ampwright` : 'Ampwright';
  }, [job.title]);
  // Another terminal of the wiring is the same place; another check's keypad is not.
  const place = page === 'readings' ? `${page}/${item}` : page;
  useEffect(() => {
    window.scrollTo(0, 0);
  }, [place]);

  const readOnly = stored.readOnly !== undefined;
  const open = useMemo(
    (): OpenJob => ({
      job: asked,
      visit: presentVisit(asked),
      readOnly,
      checks: checks.value ?? [],
      faultNames: faultNames.value ?? new Map(),
      verdict,
      bands: bands.value ?? new Map(),
      review: review.value ?? nothingToSay,
      units,
    }),
    [asked, readOnly, checks.value, faultNames.value, verdict, bands.value, review.value, units],
  );
  // The head answers at once; a long page below it follows in slices, so that no tap waits for it.
  const below = useDeferredValue(open);
  const shown = useDeferredValue(useMemo(() => ({ page, item }), [page, item]));
  return (
    <div className="job" data-entry={shown.page === 'readings' && shown.item !== undefined}>
      <JobContext value={open}>
        <JobHead
          readOnly={stored.readOnly?.why}
          back={page === 'readings' && item !== undefined ? jobAddress(id) : undefined}
        />
      </JobContext>
      <JobIndex job={id} page={page} />
      <main className="sheet" id="content">
        <JobContext value={below}>
          <Suspense fallback={<p className="soft">Opening</p>}>
            <OpenPage page={shown.page} item={shown.item} />
          </Suspense>
        </JobContext>
      </main>
    </div>
  );
}

const OpenPage = memo(function OpenPage({
  page,
  item,
}: {
  readonly page: PageName;
  readonly item: string | undefined;
}) {
  if (page === 'readings')
    return item === undefined ? <ReadingsPage /> : <EntryPage check={item} key={item} />;
  if (page === 'suspects') return <SuspectsPage />;
  if (page === 'wiring') return <WiringPage chosen={item} />;
  if (page === 'rise') return <RisePage chosen={item} />;
  if (page === 'loop') return <LoopPage chosen={item} />;
  if (page === 'charge') return <ChargePage />;
  if (page === 'remedy') return <RemedyPage />;
  if (page === 'report') return <ReportPage />;
  if (page === 'boat') return <BoatPage />;
  if (page === 'visits') return <VisitsPage />;
  return <NextCheckPage />;
});
