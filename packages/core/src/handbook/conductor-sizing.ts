/** The whole answer to "what cable?": by drop, by ampacity, by what a fuse can protect; AWG and metric; drop when hot.
 *  Each step keeps its clause. Rules: voltage-drop.ts, ampacity.ts, overcurrent.ts, conductors.ts.
 *  Leaves out: cranking circuits (the rules exempt them), mechanical protection, a.c. circuits.
 *  Local code and the makers' instructions come first. */
import { areaOfGauge, celsius, gaugeLabel } from '../units/index.ts';
import {
  ampacityAWG,
  ampacityAmbient,
  ampacityMetric,
  engineSpaceAmbient,
  type Ampacity,
  type InsulationClass,
  type Laying,
} from './ampacity.ts';
import { requireNumber, type Answer } from './citation.ts';
import { conductorTemperature, gaugesInUse, metricSizesInUse } from './conductors.ts';
import { fuseWindow, type FuseWindow } from './overcurrent.ts';
import { areaForDropCircularMil, voltageDropHot, type DropCase } from './voltage-drop.ts';

export interface ConductorRequest extends DropCase {
  readonly insulationClass: InsulationClass;
  readonly engineSpace: boolean;
  readonly bundled: boolean;
  /** Ambient of the conductor [K]; 50 °C in an engine space and 30 °C elsewhere when not given. */
  readonly ambient?: number;
}

/** What decided the size: the rule that asked for the thickest conductor. */
export type GoverningRule = 'drop' | 'ampacity' | 'protection';

export interface ConductorChoice {
  /** "4 AWG", "25 mm²". */
  readonly label: string;
  /** m² */
  readonly area: number;
  readonly governedBy: GoverningRule;
  readonly ampacity: Ampacity;
  /** Conductor temperature at this current, on the safe side [K]. */
  readonly temperature: number;
  /** Drop at that temperature, with the margin against the share allowed. */
  readonly dropHot: Answer;
  /** False: the rule is kept, yet the drop exceeds the share once the copper is hot. */
  readonly keepsDropWhenHot: boolean;
  readonly fuse: FuseWindow;
}

export type ConductorSide =
  | {
      readonly kind: 'ok';
      /** The thinnest size that keeps every rule. */
      readonly choice: ConductorChoice;
      /** The thinnest size that also keeps the drop when hot; undefined when no listed size does. */
      readonly choiceKeepingDropHot: ConductorChoice | undefined;
    }
  /** No listed size is thick enough: run conductors in parallel, shorten the run or raise the voltage. */
  | { readonly kind: 'beyond-table'; readonly thickest: string };

export interface ConductorAnswer {
  readonly areaByDrop: Answer;
  readonly awg: ConductorSide;
  /** Rests on a table that was not seen: see the citation of its ampacity. */
  readonly metric: ConductorSide;
}

/** Conductor for a current.
 *    thinnest listed size with  area ≥ K·I·L/E,  ampacity ≥ I,  and a fuse with I/0.8 ≤ rating ≤ what the size allows
 *  Errors: RangeError for numbers out of range (see DropCase) */
export function conductorFor(request: ConductorRequest): ConductorAnswer {
  if (request.ambient !== undefined)
    requireNumber('conductorFor', 'ambient', request.ambient, 'K', 'positive');
  const areaByDrop = areaForDropCircularMil(request);
  const gauges = gaugesInUse.map((gauge) => ({
    label: `${gaugeLabel(gauge)} AWG`,
    area: areaOfGauge(gauge),
    ampacity: (laying: Laying) => ampacityAWG(gauge, laying),
  }));
  const metric = metricSizesInUse.map((area) => ({
    label: `${Number((area * 1e6).toFixed(2))} mm²`,
    area,
    ampacity: (laying: Laying) => ampacityMetric(area, laying),
  }));
  return {
    areaByDrop,
    awg: sideOf(gauges, request, areaByDrop.value),
    metric: sideOf(metric, request, areaByDrop.value),
  };
}

interface Candidate {
  readonly label: string;
  readonly area: number;
  readonly ampacity: (laying: Laying) => Ampacity | undefined;
}

function sideOf(
  candidates: readonly Candidate[],
  request: ConductorRequest,
  areaByDrop: number,
): ConductorSide {
  const sizes = candidates.flatMap((candidate) => {
    const ampacity = candidate.ampacity(request);
    return ampacity ? [{ candidate, ampacity, fuse: fuseFor(request, ampacity) }] : [];
  });
  const byDrop = sizes.findIndex(({ candidate }) => candidate.area >= areaByDrop * (1 - 1e-4));
  const byAmpacity = sizes.findIndex(({ ampacity }) => ampacity.value >= request.current);
  const byFuse = sizes.findIndex(
    ({ fuse, ampacity }) => fuse.kind === 'ok' && ampacity.value >= request.current,
  );
  if (byDrop < 0 || byAmpacity < 0 || byFuse < 0)
    return { kind: 'beyond-table', thickest: candidates.at(-1)!.label };

  const wanted = Math.max(byDrop, byAmpacity, byFuse);
  // A thicker size can miss a fuse only by a gap in the standard ratings; so look on from the size wanted.
  const index = sizes.findIndex(({ fuse }, position) => position >= wanted && fuse.kind === 'ok');
  if (index < 0) return { kind: 'beyond-table', thickest: candidates.at(-1)!.label };
  const governedBy: GoverningRule =
    index > Math.max(byDrop, byAmpacity) ? 'protection' : byDrop >= byAmpacity ? 'drop' : 'ampacity';
  const choices = sizes
    .slice(index)
    .map(({ candidate, ampacity, fuse }) => choose(candidate, ampacity, fuse, governedBy, request));
  return {
    kind: 'ok',
    choice: choices[0]!,
    choiceKeepingDropHot: choices.find((choice) => choice.keepsDropWhenHot && choice.fuse.kind === 'ok'),
  };
}

function fuseFor(request: ConductorRequest, ampacity: Ampacity): FuseWindow {
  return fuseWindow({
    loadCurrent: request.current,
    ampacity: ampacity.value,
    hotSpace: request.engineSpace,
  });
}

function choose(
  candidate: Candidate,
  ampacity: Ampacity,
  fuse: FuseWindow,
  governedBy: GoverningRule,
  request: ConductorRequest,
): ConductorChoice {
  const temperature = conductorTemperature({
    ambient: request.ambient ?? (request.engineSpace ? engineSpaceAmbient : ampacityAmbient),
    insulationRating: celsius(request.insulationClass),
    current: request.current,
    ampacity: ampacity.value,
  });
  const dropHot = voltageDropHot({ ...request, area: candidate.area, temperature });
  return {
    label: candidate.label,
    area: candidate.area,
    governedBy,
    ampacity,
    temperature,
    dropHot,
    keepsDropWhenHot: (dropHot.margin ?? 0) >= 0,
    fuse,
  };
}
