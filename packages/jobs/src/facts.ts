/** The short form: a template and ten facts become the parts of a boat. */
import { boatFromTemplate, partKinds } from '@ampwright/core';
import type { BoatDescription, Fact, PartDescription, QuantityKind, TemplateId } from '@ampwright/core';
import { factTable } from './fact-table.ts';
import type { JobBoat, JobFacts, JobPart, JobQuantity } from './job.ts';
import type { Path, Problem } from './problem.ts';
import { factOf, quantityOf, quantityProblem } from './quantities.ts';

/** What is wrong with the numbers of ten facts at a place of a file. */
export function factProblems(root: unknown, path: Path, facts: JobFacts): Problem[] {
  const problems: Problem[] = [];
  for (const [key, entry] of Object.entries(factTable)) {
    const known = facts[key as keyof JobFacts];
    if (!('quantity' in entry) || known === undefined) continue;
    const problem = quantityProblem(root, [...path, key], known as JobQuantity, entry.quantity);
    if (problem !== undefined) problems.push(problem);
  }
  return problems;
}

/** The boat of a template with what is known of it. Facts that were given keep the unit they were written in. */
export function boatOfFacts(template: TemplateId, facts: JobFacts = {}): JobBoat {
  const written = new Map<Fact, JobQuantity>();
  const ten: Record<string, unknown> = {};
  for (const [key, entry] of Object.entries(factTable)) {
    const known = facts[key as keyof JobFacts] as JobQuantity | string | undefined;
    if (known === undefined) continue;
    if ('quantity' in entry && typeof known === 'object') {
      const fact = factOf(known, entry.quantity.dimension);
      written.set(fact, known);
      ten[entry.field] = fact;
    } else ten[entry.field] = known;
  }
  if (facts.nominal_voltage !== undefined) {
    ten.nominalVoltage = factOf(facts.nominal_voltage, 'voltage').value;
  }
  if (facts.changed !== undefined) ten.changed = facts.changed;
  const description = boatFromTemplate(template, ten);
  return {
    ...(facts.nominal_voltage === undefined ? {} : { nominal_voltage: facts.nominal_voltage }),
    template,
    changed: description.changed,
    parts: description.parts.map((part) => jobPart(part, written)),
  };
}

/** A described boat as a job file has it. */
export function boatOfDescription(description: BoatDescription): JobBoat {
  return {
    nominal_voltage: { value: description.nominalVoltage, unit: 'V', origin: 'told' },
    changed: description.changed,
    parts: description.parts.map((part) => jobPart(part, new Map())),
  };
}

/** The boat of a job once its description was changed. Parts that the change left alone stay as they were written. */
export function boatChanged(boat: JobBoat, before: BoatDescription, after: BoatDescription): JobBoat {
  const untouched = new Map(before.parts.map((part) => [part.id, JSON.stringify(part)]));
  const written = new Map(boat.parts.map((part) => [part.id, part]));
  const made = boatOfDescription(after);
  return {
    ...boat,
    changed: made.changed,
    parts: made.parts.map((part, index) => {
      const same = untouched.get(part.id) === JSON.stringify(after.parts[index]);
      return (same ? written.get(part.id) : undefined) ?? part;
    }),
  };
}

function jobPart(part: PartDescription, written: ReadonlyMap<Fact, JobQuantity>): JobPart {
  const kinds: Readonly<Record<string, QuantityKind>> = partKinds[part.kind].quantities;
  const quantities = Object.entries<Fact>(part.quantities).map(([key, fact]): [string, JobQuantity] => [
    key,
    written.get(fact) ?? quantityOf(fact, kinds[key]!.dimension),
  ]);
  return {
    ...part,
    quantities: Object.fromEntries(quantities),
    choices: part.choices,
  };
}
