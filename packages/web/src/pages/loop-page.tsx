export function LoopPage() {
  return <h1>Loop</h1>;
}
