/** The index of a job's pages: along the margin on a wide page, under the thumb on a narrow one. */
import { useEffect, useRef } from 'react';
import { jobAddress, type JobPage } from '../state/route.ts';

const names: Readonly<Record<JobPage, string>> = {
  check: 'Next check',
  readings: 'Readings',
  suspects: 'Suspects',
  wiring: 'Wiring',
  rise: 'Rise',
  loop: 'Loop',
  charge: 'Charge run',
  remedy: 'Remedy',
  report: 'Report',
  boat: 'Boat',
  visits: 'Visits',
};

const underThumb: readonly JobPage[] = ['check', 'readings', 'suspects', 'wiring'];
const others = (Object.keys(names) as JobPage[]).filter((name) => !underThumb.includes(name));

export function JobIndex({ job, page }: { readonly job: string; readonly page: JobPage }) {
  const more = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (more.current) more.current.open = false;
  }, [page]);
  const link = (name: JobPage) => (
    <li key={name}>
      <a href={jobAddress(job, name)} aria-current={name === page ? 'page' : undefined}>
        {names[name]}
      </a>
    </li>
  );
  return (
    <nav className="index" aria-label="Pages of this job">
      <ul className="index-first">{underThumb.map(link)}</ul>
      <details className="index-more" ref={more}>
        <summary data-current={others.includes(page)}>{others.includes(page) ? names[page] : 'More'}</summary>
        <ul>{others.map(link)}</ul>
      </details>
      <ul className="index-rest">{others.map(link)}</ul>
    </nav>
  );
}
