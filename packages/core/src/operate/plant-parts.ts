/** Small parts of a plant as circuit elements: isolator leg, gassing of a battery. */
import { junction, twoTerminal, type Element } from '../circuit/index.ts';
import { gassingAt, gassingCurrentExpression, type PreparedBattery } from '../physics/battery.ts';
import { diodeCurrent, diodeCurrentSpice, FET_ISOLATOR, ISOLATOR_DIODE } from '../physics/index.ts';

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
