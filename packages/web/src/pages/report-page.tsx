/** The report, on screen and on paper: one page for the owner, then what the next electrician needs. */
import { useMemo, useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { exportJob, exportReport } from '../state/files.ts';
import { ReportBlocks } from '../widgets/report-blocks.tsx';
import { ThinkingNote } from '../widgets/thinking-note.tsx';
import { useThought } from '../work/use-thought.ts';

export function ReportPage() {
  const { job, units } = useOpenJob();
  const question = useMemo(() => JSON.stringify([job, units]), [job, units]);
  const thought = useThought('report', question, async (thinking) => thinking.report(job, units));
  const report = thought.value;
  const [making, setMaking] = useState(false);
  const [trouble, setTrouble] = useState<string>();
  const savePdf = () => {
    setMaking(true);
    setTrouble(undefined);
    exportReport(job, units)
      .catch((error: unknown) => setTrouble(error instanceof Error ? error.message : String(error)))
      .finally(() => setMaking(false));
  };
  return (
    <>
      <div className="report-tools">
        <h1>Report</h1>
        <p className="actions">
          <button type="button" className="primary" disabled={!report || making} onClick={savePdf}>
            {making ? 'Making the PDF…' : 'Save as PDF'}
          </button>
          <button type="button" disabled={!report} onClick={() => window.print()}>
            Print
          </button>
          <button type="button" onClick={() => void exportJob(job.id)}>
            Save the job as a file
          </button>
        </p>
        {trouble !== undefined && (
          <p className="note note-no" role="alert">
            The PDF could not be made: {trouble}. Try again, or use Print and choose “Save as PDF” there.
          </p>
        )}
      </div>
      <div className="note-place">
        <ThinkingNote thought={thought} />
      </div>
      {report && (
        <article className="report">
          <section className="report-owner">
            <header className="report-head">
              <h2>{report.title}</h2>
              <p className="soft">{report.subtitle}</p>
            </header>
            <ReportBlocks blocks={report.owner} />
          </section>
          <section className="report-appendix">
            <h2>For the next electrician</h2>
            <ReportBlocks blocks={report.appendix} />
          </section>
        </article>
      )}
    </>
  );
}
