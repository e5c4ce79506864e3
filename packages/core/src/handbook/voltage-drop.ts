/** Conductor size by voltage drop: the small-craft rule, the ISO form, and the physical one with hot copper.
 *  Length is always the round trip: from the source to the load and back. */
import { circularMils, feet } from '../units/index.ts';
import { requireNumber, type Answer, type Citation } from './citation.ts';
import { conductorResistance } from './conductors.ts';

export interface DropCase {
  /** A */
  readonly current: number;
  /** m, out and back. */
  readonly lengthRoundTrip: number;
  /** V */
  readonly nominalVoltage: number;
  /** Share of the nominal voltage that may be lost: 0.03 or 0.1. */
  readonly dropShare: number;
}

export interface DropClass {
  readonly id: 'critical' | 'other';
  readonly share: number;
  readonly circuits: readonly string[];
  readonly citation: Citation;
}

const E11_DROP: Citation = { source: 'E11', clause: '11.14.2.6', edition: '2008', seen: 'S2' };

/** Which circuits may lose how much. [E11, 11.14.2.6]; ISO 10133 adds bilge pumps to the critical list. */
export const dropClasses: readonly DropClass[] = [
  {
    id: 'critical',
    share: 0.03,
    circuits: ['panel and switchboard main feeders', 'bilge blowers', 'electronics', 'navigation lights'],
    citation: E11_DROP,
  },
  {
    id: 'other',
    share: 0.1,
    circuits: ['lighting other than navigation lights', 'other non-critical loads'],
    citation: E11_DROP,
  },
];

/** K of the rule, Ω·cmil/ft: copper at about 29 °C, so it does not allow for a hot engine space. [E11] */
export const circularMilConstant = 10.75;

/** Area by the circular-mil rule.   CM = K · I · L / E
 *  CM [cmil]  K = 10.75 Ω·cmil/ft  I [A]  L [ft] round trip  E [V] allowed drop; answered in m²
 *  Source: [E11, 11.14.2.6]   Valid: stranded copper near 30 °C   Leaves out: hot copper, joints, fuse
 *  (!) Printed charts may round down where the excess is slight; this does not.   Errors: RangeError for values ≤ 0 */
export function areaForDropCircularMil(circuit: DropCase): Answer {
  checkCase('areaForDropCircularMil', circuit);
  const { current, lengthRoundTrip, nominalVoltage, dropShare } = circuit;
  const mils = (circularMilConstant * current * (lengthRoundTrip / feet(1))) / (nominalVoltage * dropShare);
  return {
    name: 'conductor area by voltage drop',
    value: circularMils(mils),
    dimension: 'area',
    formula: 'CM = K · I · L / E;  K = 10.75 Ω·cmil/ft, L round trip in ft, E = share · nominal voltage',
    inputs: caseInputs(circuit),
    citation: E11_DROP,
  };
}

/** Drop by the ISO metric formula.   E = 0.0164 · I · L / S
 *  E [V]  I [A]  L [m] whole length  S [mm²]
 *  Source: [ISO13297] annex, from memory   (!) 0.0164 lies below the resistivity of copper (0.01724): it flatters. */
export function voltageDropISO(circuit: { current: number; lengthRoundTrip: number; area: number }): Answer {
  requireNumber('voltageDropISO', 'area', circuit.area, 'm²', 'positive');
  return {
    name: 'voltage drop by the ISO formula',
    value: (0.0164e-6 * circuit.current * circuit.lengthRoundTrip) / circuit.area,
    dimension: 'voltage',
    formula: 'E = 0.0164 · I · L / S;  L whole length in m, S in mm²',
    inputs: [
      { name: 'current', value: circuit.current, dimension: 'current' },
      { name: 'length, round trip', value: circuit.lengthRoundTrip, dimension: 'length' },
      { name: 'conductor area', value: circuit.area, dimension: 'area' },
    ],
    citation: {
      source: 'ISO13297',
      clause: 'annex',
      edition: 'not seen',
      seen: 'M',
      confidence: 'medium',
      note: '0.0164 is below the resistivity of copper at 20 °C: the true drop is larger.',
    },
  };
}

/** Drop of real copper at its own temperature.   U = I · ρ20 · (1 + α20 · (T − 293.15)) · L / area
 *  U [V]  I [A]  L [m] round trip  area [m²]  T [K] of the conductor   Source: [IEC60028], Ohm
 *  Leaves out: joints and fuses (add them), strand lay (about 2 %).  Margin: against the allowed share. */
export function voltageDropHot(
  circuit: DropCase & { readonly area: number; readonly temperature: number },
): Answer {
  checkCase('voltageDropHot', circuit);
  const resistance = conductorResistance({
    area: circuit.area,
    length: circuit.lengthRoundTrip,
    temperature: circuit.temperature,
  });
  const drop = circuit.current * resistance;
  const allowed = circuit.nominalVoltage * circuit.dropShare;
  return {
    name: 'voltage drop with the conductor hot',
    value: drop,
    dimension: 'voltage',
    formula: 'U = I · ρ20 · (1 + α20 · (T − 293.15 K)) · L / area',
    inputs: [
      ...caseInputs(circuit),
      { name: 'conductor area', value: circuit.area, dimension: 'area' },
      { name: 'conductor temperature', value: circuit.temperature, dimension: 'temperature' },
    ],
    citation: {
      source: 'IEC60028',
      clause: 'resistivity and coefficient of copper',
      edition: '1925',
      seen: 'M',
      confidence: 'high',
    },
    margin: (allowed - drop) / allowed,
  };
}

/** Area [m²] that keeps the share with the copper at `temperature` [K]: the formula above turned round. */
export function areaForDropHot(circuit: DropCase & { readonly temperature: number }): number {
  checkCase('areaForDropHot', circuit);
  const allowed = circuit.nominalVoltage * circuit.dropShare;
  const ohmSquareMetres = conductorResistance({
    area: 1,
    length: circuit.lengthRoundTrip,
    temperature: circuit.temperature,
  });
  return (circuit.current * ohmSquareMetres) / allowed;
}

function checkCase(where: string, circuit: DropCase): void {
  requireNumber(where, 'current', circuit.current, 'A', 'positive');
  requireNumber(where, 'lengthRoundTrip', circuit.lengthRoundTrip, 'm', 'positive');
  requireNumber(where, 'nominalVoltage', circuit.nominalVoltage, 'V', 'positive');
  if (!(circuit.dropShare > 0 && circuit.dropShare < 1))
    throw new RangeError(`${where}: dropShare ${circuit.dropShare} must lie between 0 and 1 (0.03 is 3 %)`);
}

function caseInputs(circuit: DropCase): Answer['inputs'] {
  return [
    { name: 'current', value: circuit.current, dimension: 'current' },
    { name: 'length, round trip', value: circuit.lengthRoundTrip, dimension: 'length' },
    { name: 'nominal voltage', value: circuit.nominalVoltage, dimension: 'voltage' },
    { name: 'allowed drop', value: circuit.dropShare, dimension: 'ratio' },
  ];
}
