/** What happens in a run, on its charts: a rule at each time, and above it the letter of what happens there. */
import type { RunMark } from '../work/charging.ts';

interface Props {
  readonly marks: readonly RunMark[];
  /** Where a time lies [s to px]. */
  readonly x: (time: number) => number;
  readonly top: number;
  readonly bottom: number;
}

/** Letters closer than this share one label [px]. */
const APART = 16;

export function RunMarks({ marks, x, top, bottom }: Props) {
  return (
    <g aria-hidden="true">
      {labelsOf(marks, x).map(({ from, letters, places }) => (
        <g key={from}>
          {places.map((place) => (
            <path key={place} className="run-mark" d={`M${place} ${top - 4}V${bottom}`} />
          ))}
          <text className="run-mark-letter" x={from} y={top - 7} textAnchor="middle">
            {letters.join(' ')}
          </text>
        </g>
      ))}
    </g>
  );
}

interface Label {
  readonly from: number;
  readonly letters: string[];
  readonly places: number[];
}

function labelsOf(marks: readonly RunMark[], x: Props['x']): readonly Label[] {
  const events = marks
    .flatMap(({ letter, times }) => times.map((time) => ({ letter, place: x(time) })))
    .sort((a, b) => a.place - b.place);
  const labels: Label[] = [];
  for (const { letter, place } of events) {
    const last = labels.at(-1);
    if (last && place - last.from < APART * last.letters.length) {
      if (!last.letters.includes(letter)) last.letters.push(letter);
      if (last.places.at(-1) !== place) last.places.push(place);
    } else labels.push({ from: place, letters: [letter], places: [place] });
  }
  return labels;
}
