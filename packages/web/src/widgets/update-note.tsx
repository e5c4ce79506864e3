/** Announces a newer version. It is taken only when asked for, and never while something is half typed. */
import { useEffect, useRef, useState } from 'react';
import { registerSW } from 'virtual:pwa-register';

export function UpdateNote() {
  const [waiting, setWaiting] = useState(false);
  const update = useRef<(reload: boolean) => Promise<void>>(undefined);
  useEffect(() => {
    update.current = registerSW({ onNeedRefresh: () => setWaiting(true) });
  }, []);
  if (!waiting) return null;
  return (
    <div className="note update" role="status">
      <p>A newer version is ready. It takes a second; your jobs stay.</p>
      <button type="button" onClick={() => void update.current?.(true)}>
        Take it now
      </button>
      <button type="button" className="plain" onClick={() => setWaiting(false)}>
        Later
      </button>
    </div>
  );
}
