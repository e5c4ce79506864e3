/** Small ink marks: each means one thing everywhere, and has a word beside it. */

interface MarkProps {
  readonly className?: string;
}

function Ink({ className = '', children }: MarkProps & { readonly children: React.ReactNode }) {
  return (
    <svg className={`mark ${className}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      {children}
    </svg>
  );
}

export function Tick() {
  return (
    <Ink className="mark-yes">
      <path className="halo" d="M3 13.5C6 15 8 17.5 9.5 20.5C12 13 15.5 8 21 3.5" />
      <path d="M3 13.5C6 15 8 17.5 9.5 20.5C12 13 15.5 8 21 3.5" />
    </Ink>
  );
}

function Cross() {
  return (
    <Ink className="mark-no">
      <path className="halo" d="M4 4.5C9 9 14 14.5 20 20M19.5 4C14 9 9.5 14 4.5 20" />
      <path d="M4 4.5C9 9 14 14.5 20 20M19.5 4C14 9 9.5 14 4.5 20" />
    </Ink>
  );
}

export function Query() {
  return (
    <Ink className="mark-open">
      <path className="halo" d="M6.5 7.5C7 1.5 18 2 17.5 8C17.2 12 12 12 12 16M12 20.5V21" />
      <path d="M6.5 7.5C7 1.5 18 2 17.5 8C17.2 12 12 12 12 16M12 20.5V21" />
    </Ink>
  );
}

export function But() {
  return (
    <Ink className="mark-open">
      <path className="halo" d="M3 14C7 7 10 7 12.5 12C15 17 18 17 21 10" />
      <path d="M3 14C7 7 10 7 12.5 12C15 17 18 17 21 10" />
    </Ink>
  );
}

export function Caution() {
  return (
    <Ink className="mark-caution">
      <path className="sign" d="M12 2.5L22 20.5H2Z" />
      <path d="M12 9V14.5M12 17.5V18" />
    </Ink>
  );
}

export function Arrow({ to }: { readonly to: 'left' | 'right' }) {
  return (
    <Ink>
      <path d={to === 'left' ? 'M21 12H4M10 5L3.5 12L10 19' : 'M3 12H20M14 5L20.5 12L14 19'} />
    </Ink>
  );
}

export function Turn({ to }: { readonly to: 'back' | 'forth' }) {
  return (
    <Ink>
      <path
        d={
          to === 'back'
            ? 'M8 4L3.5 9L8 14M4 9H14C22 9 22 20 14 20H9'
            : 'M16 4L20.5 9L16 14M20 9H10C2 9 2 20 10 20H15'
        }
      />
    </Ink>
  );
}

export function AnswerMark({ mark }: { readonly mark: 'yes' | 'no' | 'open' | 'but' }) {
  if (mark === 'yes') return <Tick />;
  if (mark === 'no') return <Cross />;
  return mark === 'but' ? <But /> : <Query />;
}
