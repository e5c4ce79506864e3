/** Whether the browser has promised to keep what is stored here. */
import { useCallback, useEffect, useState } from 'react';

export interface StorageState {
  readonly kept: boolean | undefined;
  /** Bytes in use. */
  readonly used: number | undefined;
  readonly ask: () => void;
  /** It was asked and declined. */
  readonly declined: boolean;
}

export function useStorage(): StorageState {
  const [kept, setKept] = useState<boolean>();
  const [used, setUsed] = useState<number>();
  const [declined, setDeclined] = useState(false);
  useEffect(() => {
    let wanted = true;
    void Promise.all([navigator.storage.persisted(), navigator.storage.estimate()]).then(
      ([persisted, { usage }]) => {
        if (!wanted) return;
        setKept(persisted);
        setUsed(usage);
      },
    );
    return () => {
      wanted = false;
    };
  }, []);
  const ask = useCallback(() => {
    void navigator.storage.persist().then((granted) => {
      setKept(granted);
      setDeclined(!granted);
    });
  }, []);
  return { kept, used, ask, declined };
}
