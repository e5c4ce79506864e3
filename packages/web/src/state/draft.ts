/** What is half typed, kept outside the page's memory so that it outlives a crash. */
import { useCallback, useState } from 'react';

export function useDraft(place: string): readonly [string, (text: string) => void] {
  const key = `ampwright.draft.${place}`;
  const [text, setText] = useState(() => localStorage.getItem(key) ?? '');
  const set = useCallback(
    (typed: string) => {
      setText(typed);
      if (typed === '') localStorage.removeItem(key);
      else localStorage.setItem(key, typed);
    },
    [key],
  );
  return [text, set];
}
