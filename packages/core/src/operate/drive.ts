/** The belt as the machine feels it: torque asked against torque the belt can pass on gives the slip.
 *    x = T / (grip · q · T_section)           slip law and q, the share that the wrap leaves: physics/belt.ts
 *  T [N·m] at the alternator's pulley   T_section: what a well-tensioned belt of the section passes on with the usual wrap
 *  T_section is set from the amps that a section is good for at 14 V (common practice, upper values of the published range),
 *  at the shaft speed where torque is greatest (about 2500 min⁻¹) and 55 % efficiency, with a reserve of a half.
 */
import type { Belt } from '../boat/index.ts';
import { beltElectricalPowerLimit, beltSectionNames } from '../handbook/index.ts';
import { beltSlip, wrapShare } from '../physics/index.ts';

const RESERVE = 1.5;
const EFFICIENCY = 0.55;
const TORQUE_SPEED = (2500 * 2 * Math.PI) / 60;

/** Torque of each section with the usual wrap [N·m]. */
const sectionTorque = Object.fromEntries(
  beltSectionNames.map((name) => [
    name,
    (RESERVE * beltElectricalPowerLimit(name).value) / EFFICIENCY / TORQUE_SPEED,
  ]),
) as Readonly<Record<Belt['section'], number>>;

/** Torque that a belt passes on before it slips away [N·m]. */
function beltTorque(belt: Belt): number {
  return belt.grip * wrapShare(belt.section, belt.wrap) * sectionTorque[belt.section];
}

/** Torque that a belt passes on before it slips, against what its machine asks at rated amps [1].
 *  At the speed and efficiency above; `nominalVoltage` [V] */
export function beltReserve(belt: Belt, ratedCurrent: number, nominalVoltage: number): number {
  const asked = (ratedCurrent * 14 * nominalVoltage) / 12 / EFFICIENCY / TORQUE_SPEED;
  return beltTorque(belt) / asked;
}

/** Share of speed lost by the belt at a torque [1], 0 to 1. */
export function slipAt(belt: Belt, torque: number): number {
  if (belt.grip <= 0) return 1;
  beltSlip(torque / beltTorque(belt), slipOut);
  return slipOut.slip;
}

const slipOut = { slip: 0, dByLoad: 0 };
