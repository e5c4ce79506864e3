/** American Wire Gauge: number, diameter and area of the solid round conductor.
 *    diameter(n) = 0.127 mm · 92^((36 − n) / 39)          area = π/4 · diameter²
 *  n is the gauge number; 1/0, 2/0, 3/0, 4/0 are n = 0, −1, −2, −3.
 *  Source: [ASTMB258]   Valid: n from −3 to 40   Leaves out: strand lay and compaction
 *  Errors: RangeError outside Valid, or for an area that is not positive */

export const smallestGaugeNumber = -3;
export const largestGaugeNumber = 40;

const DIAMETER_AT_36 = 0.127e-3;

/** Diameter [m] of a solid round conductor of gauge number n (fractions allowed). Source: [ASTMB258] */
export function diameterOfGauge(gauge: number): number {
  if (!(gauge >= smallestGaugeNumber - 0.5 && gauge <= largestGaugeNumber + 0.5))
    throw new RangeError(`diameterOfGauge: gauge ${gauge} AWG is outside -3 (4/0) to 40`);
  return DIAMETER_AT_36 * 92 ** ((36 - gauge) / 39);
}

/** Area [m²] of a solid round conductor of gauge number n. Source: [ASTMB258] */
export function areaOfGauge(gauge: number): number {
  return (Math.PI / 4) * diameterOfGauge(gauge) ** 2;
}

/** Gauge number, with fraction, whose solid area is the one given [m²]. Source: [ASTMB258], inverted */
export function gaugeOfArea(area: number): number {
  if (!(area > 0)) throw new RangeError(`gaugeOfArea: area ${area} m² must be greater than 0`);
  const diameter = Math.sqrt((4 * area) / Math.PI);
  return 36 - (39 * Math.log(diameter / DIAMETER_AT_36)) / Math.log(92);
}

/** How the trade writes a gauge number: -1 → "2/0", 0 → "1/0", 6 → "6". */
export function gaugeLabel(gauge: number): string {
  return gauge <= 0 ? `${1 - gauge}/0` : `${gauge}`;
}

/** Gauge number from the trade's writing: "2/0", "00", "4" → −1, −1, 4; undefined when it is none. */
export function gaugeNumber(label: string): number | undefined {
  const slashed = /^([1-4])\s*\/\s*0$/.exec(label);
  if (slashed) return 1 - Number(slashed[1]);
  if (/^0{1,4}$/.test(label)) return 1 - label.length;
  if (/^-[1-3]$/.test(label) || /^[1-9]\d?$/.test(label)) {
    const number = Number(label);
    return number <= largestGaugeNumber ? number : undefined;
  }
  return undefined;
}
