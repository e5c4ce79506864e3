/** The page as a whole. */
export function App() {
  return <h1>Ampwright</h1>;
}
