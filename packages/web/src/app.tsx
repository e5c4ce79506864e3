/** The page as a whole: which part of it is open, and what is said across all of them. */
import { useEffect } from 'react';
import { loadJobs, useJobs } from './state/jobs.ts';
import { keepThemeApplied } from './state/preferences.ts';
import { useRoute } from './state/route.ts';
import { JobPage } from './pages/job-page.tsx';
import { JobsPage } from './pages/jobs-page.tsx';
import { NewJobPage } from './pages/new-job-page.tsx';
import { PreferencesPage } from './pages/preferences-page.tsx';
import { GuideStrip } from './widgets/guide-strip.tsx';
import { UpdateNote } from './widgets/update-note.tsx';

keepThemeApplied();
void loadJobs();

export function App() {
  const route = useRoute();
  const jobs = useJobs();
  useEffect(() => {
    if (route.at !== 'job') document.title = 'Ampwright';
  }, [route.at]);
  return (
    <>
      <a className="skip" href="#content" onClick={skipToContent}>
        Skip to the content
      </a>
      <UpdateNote />
      {jobs.kind === 'failed' && (
        <p className="note note-no" role="alert">
          The browser’s storage cannot be used: {jobs.why}. What you enter now is lost when the page closes.
          Free some space, or leave private browsing, then reload.
        </p>
      )}
      {route.at === 'jobs' && <JobsPage />}
      {route.at === 'new' && <NewJobPage />}
      {route.at === 'preferences' && <PreferencesPage />}
      {route.at === 'job' && <JobPage id={route.job} page={route.page} item={route.item} />}
      <GuideStrip />
    </>
  );
}

/** The address belongs to the pages, so the skip link moves the focus by itself. */
function skipToContent(event: React.MouseEvent): void {
  event.preventDefault();
  const content = document.getElementById('content');
  content?.setAttribute('tabindex', '-1');
  content?.focus();
}
