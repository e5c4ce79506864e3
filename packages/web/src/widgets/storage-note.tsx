/** Where the jobs are kept, and whether the browser has promised to keep them. */
import { useStorage } from '../state/storage.ts';

export function StorageNote() {
  const { kept, used, ask, declined } = useStorage();
  if (kept === undefined) return null;
  return (
    <section className="storage">
      <h2>Storage</h2>
      <p>
        {kept
          ? 'The jobs are on this device, and the browser has promised to keep them.'
          : 'The jobs are on this device. The browser may clear them when space runs short: save them as files too.'}
        {used !== undefined && <span className="soft"> In use: {(used / 1e6).toFixed(1)} MB.</span>}
      </p>
      {!kept && (
        <p className="actions">
          <button type="button" onClick={ask}>
            Ask the browser to keep them
          </button>
        </p>
      )}
      {declined && (
        <p role="status">
          The browser declined. Install the page on the device and ask again, or keep files.
        </p>
      )}
    </section>
  );
}
