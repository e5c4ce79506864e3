/** What a conductor may carry: tables by insulation class, engine space, bundle. data/handbook/ampacity.json
 *    carried = table · engine-space factor · bundle factor
 *  An insulation class is named by its rating in °C, as printed on the wire: it is a label, not a temperature argument.
 *  AWG: [CFR425, table 5], read in the source. Metric: ISO, from memory, not seen, and marked so in every answer. */
import tables from '../../data/handbook/ampacity.json' with { type: 'json' };
import { areaOfGauge, celsius, gaugeLabel, squareMillimetres, wireGauge } from '../units/index.ts';
import { citationOf, requireNumber, type Answer, type Citation } from './citation.ts';
import { metricSizesInUse, sameArea } from './conductors.ts';

export const insulationClasses = [60, 75, 80, 90, 105, 125, 200] as const;
export type InsulationClass = (typeof insulationClasses)[number];

/** Where the conductor runs and what lies beside it. */
export interface Laying {
  readonly insulationClass: InsulationClass;
  readonly engineSpace: boolean;
  /** Current-carrying conductors bundled or sheathed together for more than 24 in (610 mm). */
  readonly bundled: boolean;
}

/** How a cable lies where nobody told. */
export const usualLaying: Laying = { insulationClass: 105, engineSpace: true, bundled: false };

export interface Ampacity extends Answer {
  readonly tableCurrent: number;
  readonly engineSpaceFactor: number;
  readonly bundleFactor: number;
  /** Every clause used, the table first. */
  readonly citations: readonly Citation[];
}

/** Ambient of the tables [K]. */
export const ampacityAmbient = celsius(30);
/** Engine-space ambient of the factors [K]. */
export const engineSpaceAmbient = celsius(50);

/** Ampacity [A] of a gauge; undefined for a gauge that is not in the table.
 *  Source: [CFR425] table 5 and note 1; [E11] table VI for bundles under 50 V */
export function ampacityAWG(gauge: number, laying: Laying): Ampacity | undefined {
  const table = tables.cfr425_table_5;
  const row = table.rows.find((entry) => entry.gauge === gauge);
  const tableCurrent = row?.ampacity_A[table.insulation_class_degC.indexOf(laying.insulationClass)];
  if (tableCurrent === undefined) return undefined;
  return combine(`ampacity of ${gaugeLabel(gauge)} AWG`, wireGauge(gauge), tableCurrent, laying, {
    table: citationOf(table),
    factors: tables.cfr425_engine_space,
    factorClass: laying.insulationClass,
    bundle: tables.e11_bundle.factor,
    bundleCitation: citationOf(tables.e11_bundle),
  });
}

/** Ampacity [A] of a metric size; undefined for a size that is not in the table.
 *  Classes 75 and 80 use the 70 column and 90 the "85 to 90" column (the safe side). For 60 °C insulation in an engine
 *  space no factor is known: the square-root law is used, as the answer's note says.
 *  Source: [ISO13297], from memory, not seen: verify.  The bundle factor is the first step of the ISO list (0.7). */
export function ampacityMetric(area: number, laying: Laying): Ampacity | undefined {
  const table = tables.iso_metric;
  const row = table.rows.find((entry) => sameArea(squareMillimetres(entry.area_mm2), area));
  const metricClass = metricInsulationClass(laying.insulationClass);
  const tableCurrent = row?.ampacity_A[table.insulation_class_degC.indexOf(metricClass)];
  if (row === undefined || tableCurrent === undefined) return undefined;
  return combine(`ampacity of ${row.area_mm2} mm²`, squareMillimetres(row.area_mm2), tableCurrent, laying, {
    table: citationOf(table),
    factors: tables.iso_engine_space,
    factorClass: metricClass,
    bundle: tables.iso_bundle.rows[0]?.factor ?? 1,
    bundleCitation: citationOf(tables.iso_bundle),
  });
}

/** Derating to any ambient.   I(T) = I(30 °C) · √((Tins − T) / (Tins − 303.15))
 *  Tins insulation rating [K], T ambient [K]
 *  Source: heat balance; reproduces [CFR425] note 1 within rounding, but for 80, 105 and 200 °C
 *  Returns 0 at or above the rating.   Errors: RangeError for a rating at or below 30 °C */
export function deratingSquareRoot(insulationRating: number, ambient: number): number {
  if (!(insulationRating > ampacityAmbient))
    throw new RangeError(
      `deratingSquareRoot: insulationRating ${insulationRating} K must be above ${ampacityAmbient} K`,
    );
  return Math.sqrt(Math.max(0, insulationRating - ambient) / (insulationRating - ampacityAmbient));
}

/** Bundle factor by count of current-carrying conductors.
 *  Source: `direct-current` flat 0.7 [E11] under 50 V; `fifty-volts-up` [CFR425] note 2; `iso` from memory
 *  (!) The count-stepped factors of the US rules are for 50 V and more, not for a 12 V boat. */
export function bundleFactor(
  conductors: number,
  rule: 'direct-current' | 'fifty-volts-up' | 'iso',
): { factor: number; citation: Citation } {
  if (!(Number.isInteger(conductors) && conductors >= 1))
    throw new RangeError(`bundleFactor: conductors ${conductors} must be a whole number from 1`);
  if (rule === 'direct-current')
    return { factor: conductors > 1 ? tables.e11_bundle.factor : 1, citation: citationOf(tables.e11_bundle) };
  const table = rule === 'iso' ? tables.iso_bundle : tables.cfr425_bundle;
  const row = table.rows.findLast((entry) => conductors >= entry.conductors_from);
  return { factor: row?.factor ?? 1, citation: citationOf(table) };
}

/** The thinnest conductors the rules allow at all, and how often to support them. */
export const leastConductors = {
  singleGauge: tables.minimum_gauge.single_gauge,
  sheathedGauge: tables.minimum_gauge.in_sheath_gauge,
  gaugeCitation: citationOf(tables.minimum_gauge),
  singleArea: squareMillimetres(tables.minimum_metric.single_mm2),
  sheathedArea: squareMillimetres(tables.minimum_metric.in_sheath_mm2),
  areaCitation: citationOf(tables.minimum_metric),
  supportSpacing: tables.support_spacing.conductor_m,
  batteryLeadSpacing: tables.support_spacing.battery_lead_m,
  supportCitation: citationOf(tables.support_spacing),
} as const;

/** Gauges of the ampacity table, thinnest first. */
export const gaugesWithAmpacity: readonly number[] = tables.cfr425_table_5.rows
  .map((row) => row.gauge)
  .sort((a, b) => areaOfGauge(a) - areaOfGauge(b));

/** Ampacity of the largest listed size that the area holds, metric or AWG, whichever is nearer; undefined below the thinnest. */
export function ampacityOf(area: number, laying: Laying = usualLaying): Ampacity | undefined {
  const gauge = gaugesWithAmpacity.findLast((candidate) => areaOfGauge(candidate) <= area * 1.001);
  const metric = metricSizesInUse.findLast((size) => size <= area * 1.001);
  const byGauge = gauge === undefined ? undefined : ampacityAWG(gauge, laying);
  const byMetric = metric === undefined ? undefined : ampacityMetric(metric, laying);
  const gaugeArea = gauge === undefined ? 0 : areaOfGauge(gauge);
  return byMetric !== undefined && (metric ?? 0) >= gaugeArea - 1e-9 ? byMetric : (byGauge ?? byMetric);
}

interface Rules {
  table: Citation;
  factors: { readonly insulation_class_degC: number[]; readonly factor: number[] } & Parameters<
    typeof citationOf
  >[0];
  factorClass: number;
  bundle: number;
  bundleCitation: Citation;
}

function combine(name: string, area: number, tableCurrent: number, laying: Laying, rules: Rules): Ampacity {
  requireNumber('ampacity', 'table current', tableCurrent, 'A', 'positive');
  const citations: Citation[] = [rules.table];
  let engineSpaceFactor = 1;
  if (laying.engineSpace) {
    const listed = rules.factors.factor[rules.factors.insulation_class_degC.indexOf(rules.factorClass)];
    engineSpaceFactor = listed ?? deratingSquareRoot(celsius(rules.factorClass), engineSpaceAmbient);
    citations.push(
      listed === undefined
        ? {
            source: 'TEXTBOOK',
            clause: 'square-root law at 50 °C',
            edition: '',
            seen: 'D',
            note: 'No factor known for this class.',
          }
        : citationOf(rules.factors),
    );
  }
  const factorOfBundle = laying.bundled ? rules.bundle : 1;
  if (laying.bundled) citations.push(rules.bundleCitation);
  return {
    name,
    value: tableCurrent * engineSpaceFactor * factorOfBundle,
    dimension: 'current',
    formula: 'I = table · engine-space factor · bundle factor',
    inputs: [
      { name: 'conductor area', value: area, dimension: 'area' },
      { name: 'insulation rating', value: celsius(laying.insulationClass), dimension: 'temperature' },
      { name: 'table ampacity at 30 °C', value: tableCurrent, dimension: 'current' },
      { name: 'engine-space factor', value: engineSpaceFactor, dimension: 'ratio' },
      { name: 'bundle factor', value: factorOfBundle, dimension: 'ratio' },
    ],
    citation: rules.table,
    citations,
    tableCurrent,
    engineSpaceFactor,
    bundleFactor: factorOfBundle,
  };
}

function metricInsulationClass(insulationClass: InsulationClass): number {
  if (insulationClass === 75 || insulationClass === 80) return 70;
  return insulationClass === 90 ? 85 : insulationClass;
}
