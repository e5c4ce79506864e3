/** Plain text for a terminal of eighty columns, without colour and without anything that a file could smuggle in. */

export const width = 80;

/** Text without control characters: a job file cannot drive the terminal. */
export function plain(text: string): string {
  // eslint-disable-next-line no-control-regex
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, ' ');
}

/** The text in lines of at most `width`; the first starts with `lead`, the others below its end. */
export function wrapped(text: string, lead = '', hang = ' '.repeat(lead.length)): string {
  const lines: string[] = [];
  let line = lead;
  let empty = true;
  for (const word of plain(text)
    .split(/\s+/)
    .filter((piece) => piece !== '')) {
    for (const piece of pieces(word, width - hang.length)) {
      if (!empty && line.length + 1 + piece.length > width) {
        lines.push(line);
        line = hang;
        empty = true;
      }
      line += empty ? piece : ` ${piece}`;
      empty = false;
    }
  }
  lines.push(line.trimEnd());
  return lines.join('\n');
}

/** A word that is longer than a line, in parts. */
function pieces(word: string, longest: number): readonly string[] {
  const parts: string[] = [];
  for (let at = 0; at < word.length; at += longest) parts.push(word.slice(at, at + longest));
  return parts;
}

/** A probability as a person reads it: never a bare 0 or 100 %. */
export function percent(probability: number): string {
  if (probability < 0.01) return 'under 1 %';
  if (probability > 0.99) return 'over 99 %';
  return `${Math.round(probability * 100)} %`;
}

/** A number as a technician writes it: volts to the hundredth, anything else to three digits, no exponent. */
export function figure(value: number, unit = ''): string {
  if (!Number.isFinite(value)) return '?';
  return unit === 'V' ? value.toFixed(2) : String(Number(value.toPrecision(Math.abs(value) >= 1000 ? 6 : 3)));
}

/** "12.41 to 12.83 V": volts to the hundredth, anything else to the third digit of the larger end. */
export function span({
  low,
  high,
  unit,
}: {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}): string {
  const larger = Math.max(Math.abs(low), Math.abs(high), 0.001);
  const decimals = unit === 'V' ? 2 : Math.max(0, 2 - Math.floor(Math.log10(larger)));
  const rounded = (end: number): string => end.toFixed(decimals).replace(/^-(?=[0.]+$)/, '');
  return `${rounded(low)} to ${rounded(high)} ${unit}`.trimEnd();
}
