/** Small parts of a plant as circuit elements: isolator leg, charge lamp, gassing of a battery, other sources. */
import { controlledCurrent, junction, type Element } from '../circuit/index.ts';
import { gassing, gassingCurrentExpression, type PreparedBattery } from '../physics/battery.ts';
import {
  diodeCurrent,
  diodeCurrentSpice,
  FET_ISOLATOR,
  ISOLATOR_DIODE,
  lampCurrent,
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
    law: (voltage, out) => diodeCurrent(law, voltage, out),
    slopeVoltage: 0.04,
    kneeVoltage: 0.5,
    spiceLaw: (voltage) => diodeCurrentSpice(law, voltage),
  });
}

export function lampElement(name: string, setting: LampSetting): Element {
  return twoTerminal(
    name,
    [setting.a, setting.b],
    (voltage, out) => {
      if (setting.whole) lampCurrent(setting.lamp, voltage, out);
      else out.current = out.dByVoltage = 0;
    },
    (voltage) => (setting.whole ? lampCurrentSpice(setting.lamp, voltage) : '0'),
  );
}

/** Gassing branch, beside the main branch of a battery. */
export function gassingElement(
  name: string,
  terminals: readonly [number, number],
  prepared: PreparedBattery,
): Element {
  return twoTerminal(
    name,
    terminals,
    (voltage, out) => gassing(prepared, voltage, out),
    (voltage) => gassingCurrentExpression(prepared, voltage),
  );
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
  return twoTerminal(
    name,
    terminals,
    (voltage, out) => {
      const { current, setpoint } = setting;
      out.current = out.dByVoltage = 0;
      if (current <= 0) return;
      const demand = current * slope * (setpoint - voltage);
      out.current = -softClamp(demand, current, 0.01 * current);
      out.dByVoltage = current * slope * softClampSlope(demand, current, 0.01 * current);
    },
    (voltage) => {
      const { current, setpoint } = setting;
      if (current <= 0) return '0';
      const demand = `(${spiceNumber(current * slope)}*(${spiceNumber(setpoint)}-(${voltage})))`;
      return `-(${softClampSpice(demand, current, 0.01 * current)})`;
    },
  );
}

interface CurrentOut {
  current: number;
  dByVoltage: number;
}

/** Element whose current depends on the voltage between its two terminals alone. */
function twoTerminal(
  name: string,
  terminals: readonly [number, number],
  law: (voltage: number, out: CurrentOut) => void,
  spiceLaw: (voltage: string) => string,
): Element {
  const out: CurrentOut = { current: 0, dByVoltage: 0 };
  return controlledCurrent({
    name,
    terminals,
    law: ({ voltages, currents, derivatives }) => {
      law(voltages[0]! - voltages[1]!, out);
      currents[0] = out.current;
      currents[1] = -out.current;
      derivatives[0] = out.dByVoltage;
      derivatives[1] = -out.dByVoltage;
      derivatives[2] = -out.dByVoltage;
      derivatives[3] = out.dByVoltage;
    },
    spiceLaw: ([high, low]) => {
      const text = spiceLaw(`(${high}-${low})`);
      return [text, `-(${text})`];
    },
  });
}
