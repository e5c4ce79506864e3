/** What is true of a simulated boat, and what its owner tells of it: some facts unknown, some wrong. */
import {
  boatFromTemplate,
  changes,
  type BoatDescription,
  type Change,
  type Fact,
  type TemplateId,
  type TenFacts,
} from '../../packages/core/src/boat/index.ts';
import type { Random } from './random.ts';

const RPM = (2 * Math.PI) / 60;
const AMP_HOUR = 3600;

export interface Facts {
  readonly real: TenFacts;
  readonly told: TenFacts;
}

/** Ten facts as they are, and as they are told: some unknown, some wrong. */
export function facts(random: Random): Facts {
  const volts = random.chance(0.12) ? 24 : 12;
  const half = volts === 24 ? 2 : 1;
  const amps = random.pick([35, 45, 55, 60, 70, 80, 90, 105, 120, 150]) / half;
  const outside = random.chance(amps > 75 ? 0.55 : 0.2);
  const excitation = outside
    ? 'ignition'
    : random.pick(['lamp', 'lamp', 'lamp', 'ignition', 'none'] as const);
  const chemistry = random.pick(['flooded', 'flooded', 'flooded', 'agm', 'agm', 'gel', 'lifepo4'] as const);
  const capacity = (random.pick([90, 110, 160, 200, 220, 300, 400, 500]) * AMP_HOUR) / half;
  const fit = amps <= 45 ? 10 : amps <= 70 ? 16 : amps <= 100 ? 25 : amps <= 140 ? 35 : 50;
  const area = random.pick([fit, fit, fit, fit * 1.4, fit * 0.7]) * 1e-6;
  const length = 1.5 * Math.exp(0.5 * random.normal());
  const idle = (780 + 70 * random.normal()) * RPM;
  const loads = (6 / half) * Math.exp(0.7 * random.normal());
  const changed: readonly Change[] = random.chance(0.3) ? [random.pick(changes)] : [];
  const real: TenFacts = {
    nominalVoltage: volts,
    alternatorCurrent: nameplate(amps),
    regulatorPlace: outside ? 'outside' : 'inside',
    excitation,
    bankCapacity: nameplate(capacity),
    bankChemistry: chemistry,
    cableArea: nameplate(area),
    cableLength: nameplate(length),
    idleSpeed: nameplate(idle),
    loadsCurrent: nameplate(loads),
    changed,
  };
  const near = (value: number, spread: number): Fact => ({
    value: value * Math.exp(spread * random.normal()),
    origin: 'told',
  });
  const maybe = <T>(known: number, value: T): T | undefined => (random.chance(known) ? value : undefined);
  const told = {
    nominalVoltage: volts,
    alternatorCurrent: maybe(0.8, nameplate(amps)),
    regulatorPlace: maybe(outside ? 1 : 0.9, real.regulatorPlace),
    excitation: maybe(excitation === 'lamp' ? 0.9 : 1, excitation),
    bankCapacity: maybe(0.8, near(capacity, 0.08)),
    bankChemistry: maybe(chemistry === 'flooded' ? 0.8 : 1, chemistry),
    cableArea: maybe(0.6, near(area, 0.08)),
    cableLength: maybe(0.6, near(length, 0.15)),
    idleSpeed: maybe(0.6, near(idle, 0.04)),
    loadsCurrent: maybe(0.6, near(loads, 0.3)),
    changed,
  };
  const known = Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined));
  return { real, told: known };
}

const nameplate = (value: number): Fact => ({ value, origin: 'nameplate' });

/** One boat in five has a shore charger or a solar panel on its house bank. */
export function withSource(description: BoatDescription, random: Random): BoatDescription {
  if (!random.chance(0.2)) return description;
  const house = description.parts.find(({ kind, choices }) => {
    const duty = (choices as { duty?: string }).duty;
    return kind === 'battery' && duty !== 'start';
  });
  if (house === undefined) return description;
  const lead = { quantities: { area: nameplate(6e-6), length: nameplate(1.5) }, choices: {} };
  return {
    ...description,
    parts: [
      ...description.parts,
      { id: 'charger', kind: 'source', quantities: {}, choices: { state: 'on' } },
      { id: 'charger-lead', kind: 'cable', from: 'charger.+', to: `${house.id}.+`, ...lead },
      { id: 'charger-return', kind: 'cable', from: 'charger.-', to: `${house.id}.-`, ...lead },
    ],
  };
}

/** The parts as told, with the source that the true boat has: nobody overlooks that. */
export function toldParts(
  real: BoatDescription,
  template: TemplateId,
  told: TenFacts,
): BoatDescription['parts'] {
  const own = boatFromTemplate(template, told).parts;
  const more = real.parts.filter(({ id }) => id.startsWith('charger'));
  return [...own, ...more];
}
