/** Everything of a boat but its alternators and batteries, set in the plant: cables, switches, loads, keys, sources. */
import type { Boat } from '../boat/index.ts';
import { copperRatio, ISOLATOR_RESISTANCE, lampOf } from '../physics/index.ts';
import type { Condition } from './condition.ts';
import { GATE_RESISTANCE } from './gates.ts';
import { concerns } from './machine-setting.ts';
import { OPEN, type Plant } from './plant.ts';

const SMALL = 20e-6;

/** What does not change with the condition. */
export function setWiring({ wiring, batteries }: Plant, boat: Boat): void {
  const hot = copperRatio((boat.ambient + (boat.engines[0]?.spaceTemperature ?? boat.ambient)) / 2);
  boat.conductors.forEach((cable, i) => {
    wiring.conductors[i]!.resistance = cable.resistance * hot + cable.joints;
    const leak = wiring.leaks[i];
    if (leak) leak.resistance = cable.leakage;
  });
  boat.fuses.forEach((fuse, i) => {
    wiring.fuses[i]!.resistance = fuse.resistance;
  });
  boat.selectors.forEach(({ position, contact }, i) => {
    wiring.selectorOne[i]!.resistance = position === 'one' || position === 'both' ? contact : OPEN;
    const second = wiring.selectorTwo[i];
    if (second) second.resistance = position === 'two' || position === 'both' ? contact : OPEN;
  });
  boat.isolators.forEach((isolator, i) => {
    const whole = isolator.type === 'diode' ? ISOLATOR_RESISTANCE : 2 * SMALL;
    wiring.isolatorOne[i]!.resistance = isolator.legOne === 'good' ? whole : OPEN;
    wiring.isolatorTwo[i]!.resistance = isolator.legTwo === 'good' ? whole : OPEN;
  });
  boat.lamps.forEach((lamp, i) => {
    const setting = wiring.lamps[i]!;
    setting.lamp = lampOf(lamp.power, boat.nominalVoltage);
    setting.whole = lamp.state === 'good';
  });
  boat.batteries.forEach((battery, i) => {
    const { protection } = batteries[i]!;
    if (protection) protection.resistance = battery.protection === 'closed' ? GATE_RESISTANCE : OPEN;
  });
}

/** Loads, starters, sources, keys and relays under a condition; relays as they are before anything charges. */
export function applyCondition(plant: Plant, boat: Boat, condition: Condition): void {
  const { wiring, testLoad, bankTests, sources } = plant;
  boat.loads.forEach((load, i) => {
    const on = condition.loads !== 'off' && load.current > 1e-6;
    wiring.loads[i]!.resistance = on ? boat.nominalVoltage / load.current : OPEN;
  });
  const tests = condition.loads === 'test' && condition.testLoad > 0;
  const heavy = tests ? boat.nominalVoltage / condition.testLoad : OPEN;
  if (testLoad) testLoad.resistance = condition.testBank === undefined ? heavy : OPEN;
  boat.batteries.forEach(({ id }, i) => {
    bankTests[i]!.resistance = condition.testBank === id ? heavy : OPEN;
  });
  boat.starters.forEach((starter, i) => {
    const turning = condition.engine === 'cranking' && concerns(condition, starter.engine);
    wiring.starters[i]!.resistance = turning ? starter.resistance : OPEN;
  });
  boat.sources.forEach((source, i) => {
    const setting = sources[i]!;
    setting.current = source.on && condition.otherSources === 'as-found' ? source.current : 0;
    setting.setpoint = source.setpoint;
  });
  boat.keys.forEach((key, i) => {
    const on = condition.engine !== 'off' && concerns(condition, key.engine);
    wiring.keys[i]!.resistance = on ? key.contact : OPEN;
  });
  boat.relays.forEach((relay, i) => {
    wiring.relays[i]!.resistance = relay.state === 'always-closed' ? relay.contact : OPEN;
  });
}
