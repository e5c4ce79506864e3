/** The tabulated alternator of rival-alternator.ts, made from a nameplate and answering what the circuit asks.
 *  The curve of a nameplate that tells no more than cut-in and rated amps is that of one measured machine: with
 *    x = (n − n_0) / (n_rated − n_0),   I / I_rated = 0, 0.667, 0.944, 1   at x = 0, 0.2, 0.6, 1
 *  which is 120, 170 and 180 A at 2000, 4000 and 6000 min⁻¹ [SARAFIANOS2015] with an assumed cut-in of 1000 min⁻¹.
 *  A told point at low speed takes the place of the second one; the third then keeps its place between it and the last.
 *  Two told points or more take the place of both.
 *    full field  i_F = (V_t − V_b) / R_f hot        knee  i_k = 1.3 · i_F (the iron bends less than the closed form's)
 *  Turns of the rotor that are shorted act as less field current. n shaft speed  V_t test voltage  V_b brushes
 *  Leaves out: residual magnetism (without field current no output), the share of speed in the derating. */
import type { MachinePoint } from './alternator.ts';
import {
  RATED_SPEED,
  ratingVoltage,
  TYPICAL_CUT_IN_SPEED,
  type AlternatorNameplate,
} from './alternator-fit.ts';
import { copperRatio } from './conductor.ts';
import type { MachineLaw } from './machine-law.ts';
import {
  DERATE_PER_KELVIN,
  tabulatedAlternator,
  tabulatedAlternatorCurrent,
  VOLTAGE_FLOOR,
  VOLTAGE_WIDTH,
  type TabulatedAlternator,
} from './rival-alternator.ts';
import { softPlusSpice, spiceNumber } from './smooth.ts';

/** [SARAFIANOS2015], see above. */
const TYPICAL_CURVE = { places: [0, 0.2, 0.6, 1], shares: [0, 120 / 180, 170 / 180, 1] } as const;
const KNEE = 1.3;
const HOT = 353.15;
const BISECTIONS = 50;

/** Table of a nameplate. `brushDrop`, `diodeDrop` [V] and `fieldResistance20` [Ω] as the other machine has them.
 *  Errors: RangeError for values that no machine has. */
export function tableOf(
  nameplate: AlternatorNameplate,
  winding: { readonly fieldResistance20: number; readonly brushDrop: number; readonly diodeDrop: number },
): TabulatedAlternator {
  const { ratedCurrent, points = [] } = nameplate;
  const [low] = points;
  const cutIn = nameplate.cutInSpeed ?? TYPICAL_CUT_IN_SPEED;
  let speeds = TYPICAL_CURVE.places.map((x) => cutIn + x * (RATED_SPEED - cutIn));
  let currents = TYPICAL_CURVE.shares.map((share) => share * ratedCurrent);
  const [, typicalLow, typicalMiddle] = TYPICAL_CURVE.shares;
  if (low !== undefined && points.length > 1) {
    speeds = [Math.min(cutIn, low.speed / 1.05), ...points.map(({ speed }) => speed), RATED_SPEED];
    currents = [0, ...points.map(({ current }) => current), ratedCurrent];
  } else if (low !== undefined && low.speed > 1.05 * cutIn && low.speed < 0.95 * speeds[2]!) {
    speeds[1] = low.speed;
    currents[1] = low.current;
    currents[2] =
      low.current + ((ratedCurrent - low.current) * (typicalMiddle - typicalLow)) / (1 - typicalLow);
  }
  const testTemperature = nameplate.ratingTemperature ?? HOT;
  const testVoltage = ratingVoltage(nameplate.nominalVoltage);
  const fullFieldCurrent =
    (testVoltage - winding.brushDrop) / (winding.fieldResistance20 * copperRatio(testTemperature));
  return tabulatedAlternator({
    speeds,
    currents,
    testVoltage,
    testTemperature,
    fullFieldCurrent,
    kneeCurrent: KNEE * fullFieldCurrent,
    diodeDrop: winding.diodeDrop,
  });
}

/** The tabulated machine; `turns`: share of the rotor's turns that are whole. */
export class TabulatedMachine implements MachineLaw {
  private speed = 0;
  private temperature = HOT;
  private share = 1;
  private readonly full: number;

  constructor(
    readonly table: TabulatedAlternator,
    private readonly turns: number,
  ) {
    this.full = Math.tanh(table.fullFieldCurrent / table.kneeCurrent);
  }

  turn(speed: number, temperature: number, share: number): void {
    this.speed = speed;
    this.temperature = temperature;
    this.share = share;
  }

  output(at: MachinePoint): void {
    const { table, speed, temperature, share, turns } = this;
    tabulatedAlternatorCurrent(table, speed, at.fieldCurrent * turns, at.voltage, temperature, share, at);
    at.dByFieldCurrent *= turns;
  }

  /** By bisection: output rises with field current. */
  neededField(output: number, voltage: number): number {
    const { table, turns, speed, temperature } = this;
    let low = 0;
    let high = 20 * table.kneeCurrent;
    const given = (current: number): number => {
      tabulatedAlternatorCurrent(table, speed, current, voltage, temperature, 1, SCRATCH);
      return SCRATCH.current;
    };
    if (given(high) < output) return Infinity;
    for (let step = 0; step < BISECTIONS; step++) {
      const middle = (low + high) / 2;
      if (given(middle) < output) low = middle;
      else high = middle;
    }
    return high / turns;
  }

  openVoltage(fieldCurrent: number): number {
    const { table, speed, turns } = this;
    const flux = Math.tanh((fieldCurrent * turns) / table.kneeCurrent) / this.full;
    const back = (speed * flux * (table.testVoltage + 2 * table.diodeDrop)) / table.speeds[0]!;
    return back - VOLTAGE_FLOOR - 2 * table.diodeDrop;
  }

  /** The cubic pieces are added up, each with its place held within 0 to 1: no choices, which SPICE derives badly. */
  spice(at: { readonly voltage: string; readonly fieldCurrent: string }): string {
    const n = spiceNumber;
    const { table, speed, temperature, share, turns } = this;
    const { speeds, currents, slopes } = table;
    const flux = `(tanh(${n(turns / table.kneeCurrent)}*max(${at.fieldCurrent},0))/${n(this.full)})`;
    const raw = `((${at.voltage})+${n(2 * table.diodeDrop)})`;
    const back = `(${softPlusSpice(raw, VOLTAGE_WIDTH)}+${n(VOLTAGE_FLOOR)})`;
    const reach = n(speed * (table.testVoltage + 2 * table.diodeDrop));
    const scaled = `(${reach}*${flux}/${back})`;
    const pieces = speeds.slice(1).map((end, k) => {
      const width = end - speeds[k]!;
      const t = `min(1,max(0,(${scaled}-${n(speeds[k]!)})/${n(width)}))`;
      const rise = n(currents[k + 1]! - currents[k]!);
      const [from, to] = [n(slopes[k]! * width), n(slopes[k + 1]! * width)];
      return `(${t}*${t}*(3-2*${t})*${rise}+${t}*(1-${t})*((1-${t})*${from}-${t}*${to}))`;
    });
    const factor = share * (1 - DERATE_PER_KELVIN * (temperature - table.testTemperature));
    return `(${n(factor)}*${flux}*(${pieces.join('+')}))`;
  }
}

const SCRATCH = { current: 0, dByVoltage: 0, dByFieldCurrent: 0 };
