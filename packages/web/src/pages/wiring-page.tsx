export function WiringPage({ terminal }: { readonly terminal: string | undefined }) {
  return <h1>Wiring{terminal}</h1>;
}
