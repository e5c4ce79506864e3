/** The belt as the machine feels it: torque asked against torque the belt can pass on gives the slip.
 *    x = T / (grip · T_section)           slip law: physics/belt.ts
 *  T [N·m] at the alternator's pulley   T_section: what a well-tensioned belt of the section passes on
 *  T_section is set from the amps that a section is good for at 14 V (common practice), at the shaft speed where
 *  torque is greatest (about 2500 min⁻¹) and 55 % efficiency, with a reserve of a half.
 */
import type { Belt } from '../boat/index.ts';
import { beltSlip } from '../physics/index.ts';

/** Amps at 14 V that a section is good for; common practice, upper values of the published range. */
const sectionAmps: Readonly<Record<Belt['section'], number>> = {
  'v-10': 80,
  'v-13': 110,
  'two-v-13': 200,
  'ribbed-6': 200,
  'ribbed-8': 270,
};

const RESERVE = 1.5;
const EFFICIENCY = 0.55;
const TORQUE_SPEED = (2500 * 2 * Math.PI) / 60;

/** Torque that a belt passes on before it slips away [N·m]. */
function beltTorque(belt: Belt): number {
  return (belt.grip * RESERVE * sectionAmps[belt.section] * 14) / EFFICIENCY / TORQUE_SPEED;
}

/** Share of speed lost by the belt at a torque [1], 0 to 1. */
export function slipAt(belt: Belt, torque: number): number {
  if (belt.grip <= 0) return 1;
  beltSlip(torque / beltTorque(belt), slipOut);
  return slipOut.slip;
}

const slipOut = { slip: 0, dByLoad: 0 };
