/** A sketch of each template: alternators as circles, banks as pairs of plates, what lies between as a bar. */
import type { TemplateId } from '../work/contract.ts';

const alternator = (x: number, y: number) => `M${x - 7} ${y}a7 7 0 1 0 14 0a7 7 0 1 0 -14 0`;
const bank = (x: number, y: number) => `M${x - 8} ${y}H${x + 8}M${x - 4} ${y + 5}H${x + 4}`;

const drawings: Readonly<Record<TemplateId, string>> = {
  'one-battery': `${alternator(12, 20)}M19 20H60V14${bank(60, 14)}`,
  'selector-switch': `${alternator(12, 20)}M19 20H34M34 20L46 11M48 10H66M48 30H66M66 10V8M66 30V28${bank(66, 8)}${bank(66, 28)}`,
  'combining-relay': `${alternator(12, 12)}M19 12H66M66 12V8M40 12V18M36 18H44M36 23H44M40 23V32H66M66 32V28${bank(66, 8)}${bank(66, 28)}`,
  'diode-isolator': `${alternator(12, 20)}M19 20H34M34 10V30M34 10H66M34 30H66M44 6L51 10L44 14ZM51 6V14M44 26L51 30L44 34ZM51 26V34M66 10V8M66 30V28${bank(66, 8)}${bank(66, 28)}`,
  'two-alternators': `${alternator(12, 10)}${alternator(12, 30)}M19 10H66V8M19 30H66V28${bank(66, 8)}${bank(66, 28)}`,
  'twin-engines': `${alternator(20, 10)}${alternator(20, 30)}M2 4H10V16H2ZM2 24H10V36H2ZM10 10H13M10 30H13M27 10H66V8M27 30H66V28${bank(66, 8)}${bank(66, 28)}`,
};

export function TemplateSketch({ template }: { readonly template: TemplateId }) {
  return (
    <svg className="sketch" viewBox="0 0 80 40" aria-hidden="true" focusable="false">
      <path d={drawings[template]} />
    </svg>
  );
}
