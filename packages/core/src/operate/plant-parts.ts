/** Small parts of a plant as circuit elements: isolator leg, charge lamp, gassing of a battery, other sources. */
import { junction, twoTerminal, type Element } from '../circuit/index.ts';
import { gassingAt, gassingCurrentExpression, type PreparedBattery } from '../physics/battery.ts';
import {
  diodeCurrent,
  diodeCurrentSpice,
  FET_ISOLATOR,
  ISOLATOR_DIODE,
  lampCurrentAt,
  lampCurrentSpice,
  softClamp,
  softClampSlope,
  softClampSpice,
  spiceNumber,
  type Lamp,
} from '../physics/index.ts';

export interface SourceSetting {
  current: number;
  setpoint: number;
}

/** A charge lamp; a blown one passes nothing. */
export interface LampSetting {
  lamp: Lamp;
  whole: boolean;
  readonly a: number;
  readonly b: number;
}

/** Diode or FET of an isolator, from its common terminal to a leg. */
export function isolatorElement(
  name: string,
  type: 'diode' | 'fet',
  anode: number,
  cathode: number,
): Element {
  const law = type === 'diode' ? ISOLATOR_DIODE : FET_ISOLATOR;
  return junction({
    name,
    anode,
    cathode,
    law: (at) => diodeCurrent(law, at.voltage, at),
    slopeVoltage: 0.04,
    kneeVoltage: 0.5,
    spiceLaw: (voltage) => diodeCurrentSpice(law, voltage),
  });
}

export function lampElement(name: string, setting: LampSetting): Element {
  return twoTerminal({
    name,
    from: setting.a,
    to: setting.b,
    law: (at) => {
      if (setting.whole) lampCurrentAt(setting.lamp, at);
      else at.current = at.dByVoltage = 0;
    },
    spiceLaw: (voltage) => (setting.whole ? lampCurrentSpice(setting.lamp, voltage) : '0'),
  });
}

/** Gassing branch, beside the main branch of a battery. */
export function gassingElement(
  name: string,
  terminals: readonly [number, number],
  prepared: PreparedBattery,
): Element {
  return twoTerminal({
    name,
    from: terminals[0],
    to: terminals[1],
    law: (at) => gassingAt(prepared, at),
    spiceLaw: (voltage) => gassingCurrentExpression(prepared, voltage),
  });
}

/** Charger or panel: its current until the voltage nears its set-point, then less, within 0.1 V.
 *    I = softClamp(I_max · (V_set − V) / 0.1 V, I_max)
 */
export function sourceElement(
  name: string,
  terminals: readonly [number, number],
  setting: SourceSetting,
): Element {
  const slope = 10;
  return twoTerminal({
    name,
    from: terminals[0],
    to: terminals[1],
    law: (at) => {
      const { current, setpoint } = setting;
      const demand = current * slope * (setpoint - at.voltage);
      at.current = at.dByVoltage = 0;
      if (current <= 0) return;
      at.current = -softClamp(demand, current, 0.01 * current);
      at.dByVoltage = current * slope * softClampSlope(demand, current, 0.01 * current);
    },
    spiceLaw: (voltage) => {
      const { current, setpoint } = setting;
      if (current <= 0) return '0';
      const demand = `(${spiceNumber(current * slope)}*(${spiceNumber(setpoint)}-(${voltage})))`;
      return `-(${softClampSpice(demand, current, 0.01 * current)})`;
    },
  });
}
