import {
  advanceBattery,
  gassing,
  mainCurrentAt,
  prepareBattery,
  type BatteryLaw,
  type BatteryState,
} from '../../src/physics/battery.ts';

export function lawOf(changes: Partial<BatteryLaw> = {}): BatteryLaw {
  return {
    chemistry: 'flooded',
    cells: 6,
    capacity: 100 * 3600,
    resistanceFactor: 1,
    sulphation: 0,
    shortedCells: 0,
    temperature: 298.15,
    ...changes,
  };
}

export interface ChargePoint {
  time: number;
  voltage: number;
  mainCurrent: number;
  totalCurrent: number;
  stateOfCharge: number;
  chargeIn: number;
  chargeStored: number;
}

/** Charge at constant current, then constant voltage, a fixed step [s] at a time. */
export function chargeRun(
  law: BatteryLaw,
  state: BatteryState,
  limitCurrent: number,
  limitVoltage: number,
  until: (point: ChargePoint) => boolean,
  step = 60,
): ChargePoint[] {
  const points: ChargePoint[] = [];
  const gas = { current: 0, dByVoltage: 0 };
  let chargeIn = 0;
  let chargeStored = 0;
  for (let time = 0; time < 72 * 3600; time += step) {
    const prepared = prepareBattery(law, state, 0);
    let low = 0;
    let high = limitVoltage;
    const total = (voltage: number): number => {
      gassing(prepared, voltage, gas);
      return mainCurrentAt(prepared, voltage) + gas.current;
    };
    if (total(high) > limitCurrent) {
      for (let k = 0; k < 40; k++) {
        const middle = (low + high) / 2;
        if (total(middle) > limitCurrent) high = middle;
        else low = middle;
      }
    }
    const totalCurrent = total(high);
    const mainCurrent = totalCurrent - gas.current;
    const before = state.stateOfCharge;
    advanceBattery(law, state, mainCurrent, gas.current, step);
    chargeIn += totalCurrent * step;
    chargeStored += (state.stateOfCharge - before) * law.capacity;
    const point = {
      time: time + step,
      voltage: high,
      mainCurrent,
      totalCurrent,
      stateOfCharge: state.stateOfCharge,
      chargeIn,
      chargeStored,
    };
    points.push(point);
    if (until(point)) break;
  }
  return points;
}
