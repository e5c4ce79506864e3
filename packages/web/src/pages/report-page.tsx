/** The report, on screen and on paper: one page for the owner, then what the next electrician needs. */
import { useOpenJob } from '../state/job-context.tsx';
import { exportJob } from '../state/files.ts';
import { OwnerReport } from '../report/owner-report.tsx';
import { Appendix } from '../report/appendix.tsx';

export function ReportPage() {
  const { job, verdict } = useOpenJob();
  if (!verdict.value)
    return <p className="soft">The report comes here as soon as there is something to report.</p>;
  return (
    <>
      <div className="report-tools">
        <h1>Report</h1>
        <p className="actions">
          <button type="button" className="primary" onClick={() => window.print()}>
            Print or save as PDF
          </button>
          <button type="button" onClick={() => void exportJob(job.id)}>
            Save the job as a file
          </button>
        </p>
      </div>
      <article className="report">
        <OwnerReport verdict={verdict.value} />
        <Appendix verdict={verdict.value} />
      </article>
    </>
  );
}
