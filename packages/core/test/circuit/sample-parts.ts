/** Parts for the circuit tests: simple laws of the right shape, with the same law as a SPICE expression.
 *  Invented numbers; they exercise the solver and describe no real part. */
import { branch, controlledCurrent, heldAtBend, junction } from '../../src/circuit/index.ts';
import {
  alternatorFluxSpice,
  ClosedFormMachine,
  CUT_IN_WIDTH,
  regulatorDuty,
  regulatorDutySpice,
  softPlus,
  softPlusSlope,
  softPlusSpice,
} from '../../src/physics/index.ts';
import type { AlternatorMachine, MachinePoint, RegulatorDuty } from '../../src/physics/index.ts';
import type { Branch, ControlledCurrent, Junction } from '../../src/circuit/index.ts';

/** Corner at which brushes begin to conduct [V]. */
const BRUSH_WIDTH = 0.02;

/** V = E + R · I + A · asinh(I / I0): resistance and a Tafel-like bend. */
export function sampleBattery(
  name: string,
  from: number,
  to: number,
  law: { emf: number; resistance: number; bend: number; bendCurrent: number },
): Branch {
  return branch({
    name,
    from,
    to,
    law: (at) => {
      const { current } = at;
      const ratio = current / law.bendCurrent;
      at.voltage = law.emf + law.resistance * current + law.bend * Math.asinh(ratio);
      at.dByCurrent = law.resistance + law.bend / (law.bendCurrent * Math.sqrt(1 + ratio * ratio));
    },
    spiceLaw: (current) =>
      `${law.emf}+${law.resistance}*${current}+${law.bend}*asinh(${current}/${law.bendCurrent})`,
  });
}

/** I = Is · (exp(V / nVt) − 1), Shockley. */
export function sampleDiode(name: string, anode: number, cathode: number, saturation: number): Junction {
  const slope = 0.0388;
  return junction({
    name,
    anode,
    cathode,
    slopeVoltage: slope,
    kneeVoltage: slope * Math.log(slope / (Math.SQRT2 * saturation)),
    law: (at) => {
      const growth = Math.exp(at.voltage / slope);
      at.current = saturation * (growth - 1);
      at.dByVoltage = (saturation / slope) * growth;
    },
    spiceLaw: (voltage) => `${saturation}*(exp(min(${voltage},2)/${slope})-1)`,
  });
}

/** Machine with stud, case, field: i_f = softPlus(V_F − V_case − brushes) / R_f and the law of physics/alternator.ts. */
export function sampleMachine(
  name: string,
  terminals: readonly [number, number, number],
  machine: AlternatorMachine,
  speed: number,
): ControlledCurrent {
  const output: MachinePoint = { fieldCurrent: 0, voltage: 0, current: 0, dByVoltage: 0, dByFieldCurrent: 0 };
  const law = new ClosedFormMachine(machine);
  law.turn(speed, 293.15, 1);
  return controlledCurrent({
    name,
    terminals,
    law: ({ voltages, currents, derivatives }) => {
      const driving = voltages[2]! - voltages[1]! - machine.brushDrop;
      const fieldCurrent = softPlus(driving, BRUSH_WIDTH) / machine.fieldResistance20;
      const fieldConductance = softPlusSlope(driving, BRUSH_WIDTH) / machine.fieldResistance20;
      output.fieldCurrent = fieldCurrent;
      output.voltage = voltages[0]! - voltages[1]!;
      law.output(output);
      const byField = output.dByFieldCurrent * fieldConductance;
      currents[0] = -output.current;
      currents[1] = output.current - fieldCurrent;
      currents[2] = fieldCurrent;
      derivatives[0] = -output.dByVoltage;
      derivatives[1] = output.dByVoltage + byField;
      derivatives[2] = -byField;
      derivatives[3] = output.dByVoltage;
      derivatives[4] = -output.dByVoltage - byField + fieldConductance;
      derivatives[5] = byField - fieldConductance;
      derivatives[7] = -fieldConductance;
      derivatives[8] = fieldConductance;
    },
    spiceLaw: ([stud = '', frame = '', field = ''], define) => {
      const electricalSpeed = machine.polePairs * speed;
      const reactance = electricalSpeed * machine.synchronousInductance;
      const resistance = machine.statorResistance20;
      const driving = define(`${field}-${frame}-${machine.brushDrop}`);
      const fieldCurrent = define(`${softPlusSpice(driving, BRUSH_WIDTH)}/${machine.fieldResistance20}`);
      const source = define(`${electricalSpeed}*${alternatorFluxSpice(machine, fieldCurrent)}`);
      const raw = define(`${2 / Math.PI}*(${stud}-${frame}+${2 * machine.diodeDrop})`);
      const back = define(`${softPlusSpice(raw, CUT_IN_WIDTH)}+1e-6`);
      const rise = define(softPlusSpice(`(${source}-${back})`, CUT_IN_WIDTH));
      const whole = `(${back}+${rise})`;
      const square = `(${resistance ** 2 + reactance ** 2}*${whole}*${whole}-${reactance ** 2}*${back}*${back})`;
      const root = define(`sqrt(max(${square},1e-12))`);
      const current = define(
        `${3 / Math.PI}*${rise}*(${back}+${whole})/(${resistance}*max(${back},1e-6)+${root})`,
      );
      return [`-${current}`, `${current}-${fieldCurrent}`, fieldCurrent];
    },
  });
}

/** Regulator with supply, field, sense, ground, its chopper as the mean over a cycle:
 *  i = (d · (V_supply − V_ground) − (V_F − V_ground)) / R out of F, d · i from the supply, (1 − d) · i from ground. */
export function sampleRegulator(
  name: string,
  terminals: readonly [number, number, number, number],
  law: { setVoltage: number; gain: number; resistance: number },
): ControlledCurrent {
  const out: RegulatorDuty = { duty: 0, dBySensed: 0 };
  const center = law.setVoltage - 0.5 / law.gain;
  const width = 0.2 / law.gain;
  return controlledCurrent({
    name,
    terminals,
    limit: (aim, start) => {
      aim[2] = aim[3]! + heldAtBend(aim[2]! - aim[3]!, start[2]! - start[3]!, center, width);
    },
    law: ({ voltages, currents, derivatives }) => {
      const ground = voltages[3]!;
      regulatorDuty(law.gain, law.setVoltage, voltages[2]! - ground, 1, out);
      const { duty, dBySensed } = out;
      const supply = voltages[0]! - ground;
      const conductance = 1 / law.resistance;
      const current = (duty * supply - voltages[1]! + ground) * conductance;
      const bySupply = duty * conductance;
      const bySense = dBySensed * supply * conductance;
      const byGround = conductance - bySupply - bySense;
      currents[0] = duty * current;
      currents[1] = -current;
      currents[3] = (1 - duty) * current;
      derivatives[0] = duty * bySupply;
      derivatives[1] = -duty * conductance;
      derivatives[2] = duty * bySense + dBySensed * current;
      derivatives[3] = duty * byGround - dBySensed * current;
      derivatives[4] = -bySupply;
      derivatives[5] = conductance;
      derivatives[6] = -bySense;
      derivatives[7] = -byGround;
      for (let column = 0; column < 4; column++) {
        derivatives[12 + column] = -derivatives[column]! - derivatives[4 + column]!;
      }
    },
    spiceLaw: ([supply = '', field = '', sense = '', ground = ''], define) => {
      const sensed = define(`${sense}-${ground}`);
      const duty = define(regulatorDutySpice(law.gain, law.setVoltage, 1, sensed));
      const current = define(`(${duty}*(${supply}-${ground})-(${field}-${ground}))/${law.resistance}`);
      return [`${duty}*${current}`, `-${current}`, '0', `(1-${duty})*${current}`];
    },
  });
}
