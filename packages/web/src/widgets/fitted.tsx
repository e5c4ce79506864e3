/** Gives a drawing the width that its place has. */
import { useLayoutEffect, useRef, useState, type ReactNode } from 'react';

export function Fitted({ children }: { readonly children: (width: number) => ReactNode }) {
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = place.current;
    if (!element) return;
    const observer = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.observe(element);
    setWidth(element.clientWidth);
    return () => observer.disconnect();
  }, []);
  return (
    <div ref={place} className="fitted">
      {width > 0 && children(width)}
    </div>
  );
}
