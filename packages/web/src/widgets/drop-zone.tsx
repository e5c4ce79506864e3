/** Takes files that are dropped anywhere on it. */
import { useState, type ReactNode } from 'react';

interface Props {
  readonly onFiles: (files: readonly File[]) => void;
  readonly children: ReactNode;
}

export function DropZone({ onFiles, children }: Props) {
  const [over, setOver] = useState(false);
  return (
    <div
      className="drop"
      data-over={over}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (event.currentTarget === event.target) setOver(false);
      }}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        onFiles([...event.dataTransfer.files]);
      }}
    >
      {children}
    </div>
  );
}
