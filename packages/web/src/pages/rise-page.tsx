export function RisePage() {
  return <h1>Rise</h1>;
}
