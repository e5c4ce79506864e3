export function VisitsPage() {
  return <h1>Visits</h1>;
}
