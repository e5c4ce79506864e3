/** The name of the thing, with its drawing: a rise, and the point on it. */
export function Wordmark() {
  return (
    <p className="wordmark">
      <svg viewBox="0 0 64 40" aria-hidden="true" focusable="false">
        <path className="wordmark-axes" d="M4 3V36H61" />
        <path className="wordmark-rise" d="M6 31C15 30 17 31 20 28C25 22 24 13 33 10C40 8 48 8 58 8" />
        <circle className="wordmark-point" cx="33" cy="10" r="4.5" />
      </svg>
      Ampwright
    </p>
  );
}
