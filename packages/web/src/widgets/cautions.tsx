/** What can hurt someone, before anything else is said. */
import type { CheckText } from '../work/contract.ts';
import { Caution } from './marks.tsx';

interface Props {
  /** Gravest first. */
  readonly cautions: readonly string[];
  /** How many are in sight at all times; the rest can be folded away. All when absent. */
  readonly inSight?: number;
  /** Whether the rest is in sight too until it is folded. */
  readonly open?: boolean;
}

export function Cautions({ cautions, inSight = cautions.length, open = false }: Props) {
  if (cautions.length === 0) return null;
  // One more line is shorter than a fold that hides it.
  const shown = cautions.length - inSight < 2 ? cautions.length : inSight;
  const rest = cautions.slice(shown);
  return (
    <section className="cautions" aria-label="Cautions">
      <CautionList cautions={cautions.slice(0, shown)} />
      {rest.length > 0 && (
        <details open={open}>
          <summary>{rest.length} more cautions</summary>
          <CautionList cautions={rest} />
        </details>
      )}
    </section>
  );
}

function CautionList({ cautions }: Pick<Props, 'cautions'>) {
  return (
    <ul>
      {cautions.map((words) => (
        <li key={words}>
          <Caution /> <span>{words}</span>
        </li>
      ))}
    </ul>
  );
}

/** Cautions of a check. Where it is read up, those of live work are all in sight; where its figure is keyed in, the gravest. */
export function CheckCautions({ text, at }: { readonly text: CheckText; readonly at: 'steps' | 'entry' }) {
  const { cautions, risk } = text;
  return (
    <Cautions
      cautions={cautions}
      inSight={cautions.length < 5 ? 2 : risk + 1}
      open={at === 'steps' && risk >= 2}
    />
  );
}
