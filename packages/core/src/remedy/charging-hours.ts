/** Hours that a bank needs, by hand: full net amps up to the knee, then a current that dies away.
 *    t_knee = (knee − SoC) · C / (η · I)          t_full = t_knee + τ · ln(20)        τ = max((1 − knee) · C / (η · I), τ_least)
 *  C [C] what the bank holds now  I [A] into the bank, hot, loads taken off  η charge efficiency of the chemistry
 *  knee 0.8 lead-acid, 0.97 LiFePO4; τ_least 1.5 h lead-acid, 0.25 h LiFePO4: common practice. Full: 95 % of what was
 *  missing at the knee has gone in.   Leaves out: stages, heat, engine speed; `run` computes with them.
 */
import { boatAt, chargingPaths, type BoatDescription, type Chemistry } from '../boat/index.ts';
import { coulombicEfficiency } from '../handbook/index.ts';
import { asFound, Operator } from '../operate/index.ts';

const HOUR = 3600;
const knees: Readonly<Record<Chemistry, number>> = { flooded: 0.8, agm: 0.8, gel: 0.8, lifepo4: 0.97 };
const leastTail: Readonly<Record<Chemistry, number>> = {
  flooded: 1.5 * HOUR,
  agm: 1.5 * HOUR,
  gel: 1.5 * HOUR,
  lifepo4: 0.25 * HOUR,
};

export interface ChargingHours {
  readonly battery: string;
  /** Share of charge it starts from, and whether that was read or taken. */
  readonly from: number;
  /** A into the bank at cruising speed, half an hour after the start, usual loads on. */
  readonly amps: number;
  /** s to the knee, and to full; Infinity when nothing goes in. */
  readonly toKnee: number;
  readonly toFull: number;
  readonly knee: number;
  readonly formula: string;
}

/** Hours for each charged bank of the median boat; `stateOfCharge` by battery id where it was read.
 *  Errors: RangeError for a state of charge outside 0..1 */
export function chargingHours(
  description: BoatDescription,
  stateOfCharge: ReadonlyMap<string, number> = new Map(),
): readonly ChargingHours[] {
  const boat = boatAt(description);
  for (const battery of boat.batteries) {
    const read = stateOfCharge.get(battery.id);
    if (read !== undefined && !(read >= 0 && read <= 1))
      throw new RangeError(`chargingHours: stateOfCharge ${read} of ${battery.id} must lie in 0..1`);
    battery.stateOfCharge = read ?? battery.stateOfCharge;
  }
  const point = new Operator(boat).at({
    ...asFound,
    engine: 'running',
    engineSpeed: boat.engines[0]?.cruiseSpeed ?? 0,
    sinceStart: 0.5 * HOUR,
  });
  const served = new Set(chargingPaths(description).map(({ battery }) => battery));
  return boat.batteries
    .filter(({ id }) => served.has(id))
    .map((battery) => {
      const into = point.batteries.find(({ id }) => id === battery.id)?.current ?? 0;
      const { low, high } = coulombicEfficiency(battery.chemistry);
      return hoursByHand({
        battery: battery.id,
        chemistry: battery.chemistry,
        capacity: battery.capacity * battery.health,
        from: battery.stateOfCharge,
        amps: into,
        efficiency: (low + high) / 2,
      });
    });
}

/** The formula above for one bank. */
export function hoursByHand(bank: {
  readonly battery: string;
  readonly chemistry: Chemistry;
  readonly capacity: number;
  readonly from: number;
  readonly amps: number;
  readonly efficiency: number;
}): ChargingHours {
  const { battery, chemistry, capacity, from, amps, efficiency } = bank;
  const knee = knees[chemistry];
  const rate = efficiency * amps;
  const toKnee = from >= knee ? 0 : rate > 0 ? ((knee - from) * capacity) / rate : Infinity;
  const start = Math.max(knee, from);
  const tail = rate > 0 ? Math.max(((1 - knee) * capacity) / rate, leastTail[chemistry]) : Infinity;
  // Already past the knee: only the rest of the tail is left.
  const left = Math.max(0, Math.log((20 * (1 - start)) / (1 - knee)));
  return {
    battery,
    from,
    amps,
    knee,
    toKnee,
    toFull: toKnee + (left > 0 ? tail * left : 0),
    formula: 't = (knee − SoC) · C / (η · I), then τ · ln(20) to full',
  };
}
