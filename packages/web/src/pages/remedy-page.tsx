export function RemedyPage() {
  return <h1>Remedy</h1>;
}
