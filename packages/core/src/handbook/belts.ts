/** Alternator belts: sections, grooves, least pulleys, what each carries. data/handbook/belts.json
 *  The equations of grip and tension belong to the physics of the belt. Amps per section are common practice. */
import tables from '../../data/handbook/belts.json' with { type: 'json' };
import { citationOf, requireNumber, type Answer, type Citation } from './citation.ts';

export const beltSectionNames = ['v-10', 'v-13', 'two-v-13', 'ribbed-6', 'ribbed-8'] as const;
export type BeltSectionName = (typeof beltSectionNames)[number];

export interface BeltSection {
  readonly name: BeltSectionName;
  readonly words: string;
  readonly kind: 'v' | 'ribbed';
  /** Strands of a V-belt set, or ribs. */
  readonly count: number;
  /** Groove angle [rad]. */
  readonly grooveAngle: number;
  readonly grooveCitation: Citation;
  /** Top width of one strand, or pitch of the ribs [m]. */
  readonly width: number;
  /** Least effective pulley diameter [m]; undefined where no figure is known. */
  readonly leastDiameter: number | undefined;
  readonly leastDiameterCitation: Citation | undefined;
  /** Amps at 14 V that the section carries, cautious and usual upper figure. */
  readonly current: readonly [number, number];
  readonly currentCitation: Citation;
}

/** A section by name.  Source: grooves [SAEJ636], [ISO2790], [SAEJ1459]; ribs [ISO9981]; amps common practice */
export function beltSection(name: BeltSectionName): BeltSection {
  const row = tables.sections.find((entry) => entry.name === name);
  if (!row) throw new RangeError(`beltSection: "${name}" is not one of ${beltSectionNames.join(', ')}`);
  const ribbed = row.kind === 'ribbed';
  return {
    name,
    words: row.words,
    kind: ribbed ? 'ribbed' : 'v',
    count: row.count,
    grooveAngle: (row.groove_deg * Math.PI) / 180,
    grooveCitation: citationOf(ribbed ? tables.ribbed_groove : tables.v_groove),
    width: row.width_mm / 1000,
    leastDiameter: row.least_diameter_in === null ? undefined : row.least_diameter_in * 0.0254,
    leastDiameterCitation: row.least_diameter_in === null ? undefined : citationOf(tables.least_diameter),
    current: [row.current_low_A, row.current_high_A],
    currentCitation: citationOf(tables.current),
  };
}

/** Electrical power [W] that the usual upper figure stands for: amps · 14 V, the same at 24 V with half the amps. */
export function beltElectricalPowerLimit(name: BeltSectionName): Answer {
  const section = beltSection(name);
  return {
    name: `output that a ${section.words} carries`,
    value: section.current[1] * tables.current.voltage_V,
    dimension: 'power',
    formula: 'P = amps of the section · 14 V',
    inputs: [{ name: 'amps at 14 V', value: section.current[1], dimension: 'current' }],
    citation: section.currentCitation,
  };
}

/** Whether a section carries an alternator's output, and which sections do.
 *  `within` the cautious figure, `near` the limit between the two, `beyond` it.   Common practice. */
export function beltForOutput(
  name: BeltSectionName,
  outputPower: number,
): {
  verdict: 'within' | 'near' | 'beyond';
  margin: number;
  enough: readonly BeltSectionName[];
  citation: Citation;
} {
  requireNumber('beltForOutput', 'outputPower', outputPower, 'W', 'not negative');
  const amps = outputPower / tables.current.voltage_V;
  const [cautious, upper] = beltSection(name).current;
  return {
    verdict: amps <= cautious ? 'within' : amps <= upper ? 'near' : 'beyond',
    margin: (upper - amps) / upper,
    enough: beltSectionNames.filter((candidate) => amps <= beltSection(candidate).current[0]),
    citation: citationOf(tables.current),
  };
}

/** Deflection to set at mid-span.   δ = span / 64  (1/64 in per inch; 0.4 mm per 25 mm)
 *  δ [m]  span [m]   Source: [PMM, fig. 7-14]   The maker's figure comes first. */
export function beltDeflection(span: number): Answer {
  requireNumber('beltDeflection', 'span', span, 'm', 'positive');
  return {
    name: 'belt deflection at mid-span',
    value: span / 64,
    dimension: 'length',
    formula: 'δ = span / 64',
    inputs: [{ name: 'free span', value: span, dimension: 'length' }],
    citation: citationOf(tables.deflection),
  };
}

/** Force at mid-span for a strand tension, at a deflection of span / 64.   F = T / 16
 *  F [N]  T [N]   Source: statics, small angle   Leaves out: belt stiffness */
export function beltDeflectionForce(strandTension: number): Answer {
  requireNumber('beltDeflectionForce', 'strandTension', strandTension, 'N', 'positive');
  return {
    name: 'force at mid-span for that deflection',
    value: strandTension / 16,
    dimension: 'force',
    formula: 'F = T / 16 at δ = span / 64',
    inputs: [{ name: 'strand tension', value: strandTension, dimension: 'force' }],
    citation: { source: 'TEXTBOOK', clause: 'statics of a string', edition: '', seen: 'D' },
  };
}

/** Effective friction of a V-belt in e^(μ θ), and the speed and seating practice. */
export const beltPractice = {
  /** Wrap at the alternator's pulley that the amps of a section are taken to hold at [rad]; an estimate of ours. */
  usualWrap: (tables.usual_wrap.wrap_deg * Math.PI) / 180,
  usualWrapCitation: citationOf(tables.usual_wrap),
  effectiveFriction: tables.effective_friction.value,
  effectiveFrictionCitation: citationOf(tables.effective_friction),
  ribbedEfficiency: tables.ribbed_efficiency.range,
  ribbedEfficiencyCitation: citationOf(tables.ribbed_efficiency),
  newBeltTensionRatio: tables.seating.new_over_used,
  retensionAfter: [tables.seating.retension_min[0]! * 60, tables.seating.retension_min[1]! * 60],
  seatingCitation: citationOf(tables.seating),
  /** W per rib, low and high; doubtful. */
  powerPerRib: tables.power_per_rib.range_W,
  powerPerRibCitation: citationOf(tables.power_per_rib),
} as const;
