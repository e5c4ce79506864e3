export function BoatPage() {
  return <h1>Boat</h1>;
}
