/** Announces a newer version. It is taken only when asked for, and never while something is half typed. */
import { useEffect, useState } from 'react';
import { registerSW } from 'virtual:pwa-register';

export function UpdateNote() {
  const [waiting, setWaiting] = useState(false);
  const [take, setTake] = useState<() => void>();
  useEffect(() => {
    const update = registerSW({ onNeedRefresh: () => setWaiting(true) });
    setTake(() => () => void update(true));
  }, []);
  if (!waiting) return null;
  return (
    <div className="note update" role="status">
      <p>A newer version is ready. It takes a second; your jobs stay.</p>
      <button type="button" onClick={take}>
        Take it now
      </button>
      <button type="button" className="plain" onClick={() => setWaiting(false)}>
        Later
      </button>
    </div>
  );
}
