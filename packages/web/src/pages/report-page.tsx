export function ReportPage() {
  return <h1>Report</h1>;
}
