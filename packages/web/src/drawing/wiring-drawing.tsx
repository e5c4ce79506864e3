/** The boat as a drawing: symbols, cables, terminals to touch, what was measured, who is suspected, what is cleared. */
import { useMemo } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { percent } from '../words/odds.ts';
import { partWords, terminalName } from '../words/part-words.ts';
import { readingWords } from '../words/reading-words.ts';
import type { JobPart, PartKindId } from '../work/contract.ts';
import { wiringOf, type PlacedCable, type PlacedPart, type Point } from './routing.ts';
import { standingOf, type Standing } from './standing.ts';
import { symbolShapes } from './symbol-shapes.ts';

interface LabelPlace {
  readonly name: readonly [number, number];
  readonly chance: readonly [number, number];
  readonly anchor: 'start' | 'end';
}

/** Where name and chance stand, from the middle of the symbol: over machines, beside a box, else beside the stem. */
const overIt: LabelPlace = { name: [-54, -54], chance: [-54, -37], anchor: 'start' };
const besideStem: LabelPlace = { name: [12, -24], chance: [-12, -24], anchor: 'end' };
const besideBox: LabelPlace = { name: [54, -8], chance: [54, 12], anchor: 'start' };
const labelPlaces: Readonly<Partial<Record<PartKindId, LabelPlace>>> = {
  alternator: overIt,
  regulator: { name: [-40, -43], chance: [-36, -22], anchor: 'start' },
  isolator: besideBox,
};

/** How far left of its middle a part's tick stands, clear of its symbol. */
const ticksLeft: Readonly<Partial<Record<PartKindId, number>>> = { isolator: 68, relay: 66, regulator: 62 };

/** What volts are read against; between any other two points it is a drop. */
const isReturn = (terminal: string): boolean => /\.(?:-|case|block)$/.test(terminal);

export function WiringDrawing({ chosen }: { readonly chosen: string | undefined }) {
  const { job, verdict, visit, checks, units } = useOpenJob();
  const wiring = useMemo(() => wiringOf(job.boat.parts), [job.boat.parts]);
  const standing = useMemo(() => standingOf(verdict.value), [verdict.value]);
  const measured = useMemo(() => {
    const values = new Map<string, string>();
    for (const reading of visit?.readings ?? []) {
      const check = checks.find(({ id }) => id === reading.check);
      if (check?.outcome.kind !== 'number' || reading.value === undefined) continue;
      const { probe } = check.outcome;
      if (probe.kind !== 'dc-volts') continue;
      const words = readingWords(reading, check, units);
      values.set(probe.plus, isReturn(probe.minus) ? words : `drop ${words}`);
    }
    return values;
  }, [visit?.readings, checks, units]);

  return (
    <div className="drawing-frame" tabIndex={0} role="region" aria-label="Wiring drawing">
      <svg
        className={wiring.width < 480 ? 'drawing drawing-small' : 'drawing'}
        width={wiring.width}
        height={wiring.height}
        viewBox={`0 0 ${wiring.width} ${wiring.height}`}
        role="group"
        aria-label="Parts, cables and terminals"
      >
        <defs>
          <pattern
            id="shading"
            width="5"
            height="5"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(-45)"
          >
            <path className="shading-line" d="M0 1.5H5" />
          </pattern>
        </defs>
        {wiring.cables.map((cable, index) => (
          <Cable
            key={cable.part?.id ?? index}
            cable={cable}
            standing={cable.part && standing.get(cable.part.id)}
          />
        ))}
        {wiring.bars.map(({ part, x, y, width }) => (
          <g key={part.id}>
            <rect className="drawing-bar" x={x} y={y} width={width} height="34" />
            <text className="drawing-label" x={x + 56} y={y + 22}>
              {part.label ?? 'Engine block: the return'}
            </text>
          </g>
        ))}
        {wiring.parts.map((placed) => (
          <PartSymbol
            key={placed.part.id}
            placed={placed}
            standing={standingWithParts(placed.part, job.boat.parts, standing)}
            chosen={chosen === placed.part.id}
          />
        ))}
        {wiring.terminals.map(({ terminal, x, y }) => {
          const value = measured.get(terminal);
          return (
            <a
              key={terminal}
              className="terminal"
              href={jobAddress(job.id, 'wiring', terminal)}
              aria-label={`${terminalName(terminal, job)}${value === undefined ? '' : `, ${value}`}`}
              aria-current={chosen === terminal ? 'true' : undefined}
            >
              <circle className="terminal-touch" cx={x} cy={y} r="22" />
              <circle
                className={value === undefined ? 'terminal-dot' : 'terminal-dot terminal-read'}
                cx={x}
                cy={y}
                r={value === undefined ? 5 : 7}
              />
              {value !== undefined && (
                <text
                  className="terminal-value"
                  x={x + (x > wiring.width - 70 ? 22 : 10)}
                  y={y + (x > wiring.width - 70 ? -12 : 5)}
                  textAnchor={x > wiring.width - 70 ? 'end' : 'start'}
                >
                  {value}
                </text>
              )}
            </a>
          );
        })}
        {wiring.cables.map((cable) => {
          const state = cable.part && standing.get(cable.part.id);
          return cable.part && state ? <CableTag key={cable.part.id} cable={cable} state={state} /> : null;
        })}
      </svg>
    </div>
  );
}

interface PartSymbolProps {
  readonly placed: PlacedPart;
  readonly standing: Standing | undefined;
  readonly chosen: boolean;
}

function PartSymbol({ placed, standing: state, chosen }: PartSymbolProps) {
  const { job } = useOpenJob();
  const { part, x, y } = placed;
  const shape = symbolShapes[part.kind];
  if (!shape) return null;
  const name = partWords(part, job);
  const label = labelPlaces[part.kind] ?? besideStem;
  return (
    <a
      className="part"
      href={jobAddress(job.id, 'wiring', part.id)}
      aria-label={[name, state?.words].filter(Boolean).join(', ')}
      aria-current={chosen ? 'true' : undefined}
    >
      <rect
        className={`part-ground part-${state?.kind ?? 'plain'}`}
        x={x - 32}
        y={y - 30}
        width="64"
        height="60"
        fillOpacity={state?.kind === 'suspect' ? 0.25 + 0.6 * state.chance : 0}
      />
      <path className="part-line" d={shape.path} transform={`translate(${x} ${y})`} />
      {shape.letter !== undefined && (
        <text className="part-letter" x={x} y={part.kind === 'alternator' ? y : y + 7}>
          {shape.letter}
        </text>
      )}
      <text className="drawing-label part-name" x={x + label.name[0]} y={y + label.name[1]}>
        {short(name)}
      </text>
      {state?.kind === 'suspect' && (
        <text
          className="part-state"
          x={x + label.chance[0]}
          y={y + label.chance[1]}
          textAnchor={label.anchor}
        >
          {percent(state.chance)}
        </text>
      )}
      {state?.kind === 'cleared' && (
        <path className="part-tick" d={`M${x - (ticksLeft[part.kind] ?? 48)} ${y - 4}l5 7l10 -16`} />
      )}
    </a>
  );
}

function Cable({
  cable,
  standing,
}: {
  readonly cable: PlacedCable;
  readonly standing: Standing | undefined;
}) {
  const d = cable.points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join('');
  return (
    <g>
      {standing?.kind === 'suspect' && (
        <path className="cable-suspect" d={d} strokeOpacity={0.25 + 0.6 * standing.chance} />
      )}
      <path className={isThick(cable.part) ? 'cable cable-thick' : 'cable'} d={d} />
    </g>
  );
}

/** Says at a suspected or cleared cable what is thought of it. */
function CableTag({ cable, state }: { readonly cable: PlacedCable; readonly state: Standing }) {
  const { x, y } = middle(cable.points);
  const words = state.kind === 'cleared' ? '✓' : percent(state.chance);
  const width = state.kind === 'cleared' ? 20 : 8.5 * words.length;
  return (
    <g className="cable-tag">
      <title>{state.words}</title>
      {state.kind === 'suspect' && <rect x={x - width / 2} y={y - 10} width={width} height="20" />}
      {state.kind === 'cleared' ? (
        <path className="part-tick" d={`M${x - 6} ${y}l4 6l8 -13`} />
      ) : (
        <text x={x} y={y + 5}>
          {words}
        </text>
      )}
    </g>
  );
}

function standingWithParts(
  part: JobPart,
  parts: readonly JobPart[],
  standing: ReadonlyMap<string, Standing>,
): Standing | undefined {
  const own = [
    part,
    ...parts.filter(({ kind, serves }) => (kind === 'belt' || kind === 'regulator') && serves === part.id),
  ]
    .map(({ id }) => standing.get(id))
    .filter((state) => state !== undefined);
  const suspects = own.filter(({ kind }) => kind === 'suspect');
  if (suspects.length === 0) return standing.get(part.id);
  const chance = Math.min(
    1,
    suspects.reduce((sum, state) => sum + state.chance, 0),
  );
  return { kind: 'suspect', chance, words: suspects.map(({ words }) => words).join('; ') };
}

function isThick(part: JobPart | undefined): boolean {
  const area = part?.quantities['area'];
  if (part === undefined) return false;
  return area === undefined || area.unit !== 'mm2' || area.value >= 6;
}

function short(name: string): string {
  return name.length > 16 ? `${name.slice(0, 15)}…` : name;
}

function middle(points: readonly Point[]): Point {
  let best: Point = points[0] ?? { x: 0, y: 0 };
  let longest = -1;
  for (const [index, point] of points.entries()) {
    const next = points[index + 1];
    if (!next) break;
    const length = Math.abs(next.x - point.x) + Math.abs(next.y - point.y);
    if (length <= longest) continue;
    longest = length;
    best = { x: (point.x + next.x) / 2, y: (point.y + next.y) / 2 };
  }
  return best;
}
