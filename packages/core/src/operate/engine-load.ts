/** What the alternators ask of their engine at a point: share of its power, and how far its note has dropped for it.
 *    n_set = n + δ · P · n_rated / P_rated         engine.ts solved for the speed without load
 *  n speed as it runs, loaded [rad/s]  δ droop of the governor  P at the crank: shafts and belts' heat [W]
 *  δ = 0.07, the middle of mechanical governors (engine.ts). Leaves out: propeller, the transient dip. */
import type { Boat } from '../boat/index.ts';
import { availablePower, loadedEngineSpeed } from '../physics/index.ts';
import type { OperatingPoint } from './point.ts';

const DROOP = 0.07;

export interface EngineLoad {
  readonly id: string;
  /** At the crank [W]. */
  readonly power: number;
  /** Of what the engine can give at this speed; above 1 it stalls. */
  readonly shareOfPower: number;
  /** By which it would run faster without its alternators [rad/s]. */
  readonly speedDrop: number;
}

/** What the load of a point does to an engine: share of its speed that it loses, from the speed set without load, and share of
 *  what it can give at that speed. Above 1 it stalls, and the speed is that of its governor's end. */
export interface EngineDroop {
  readonly drop: number;
  readonly share: number;
}

/** Droop of every engine of the boat (loadedEngineSpeed). */
export function engineDroops(boat: Boat, point: OperatingPoint): EngineDroop[] {
  return boat.engines.map(({ id, ratedPower, ratedSpeed, idleSpeed, speedError }) => {
    const set = point.condition.engineSpeed * speedError;
    if (point.condition.engine !== 'running' || set <= 0) return { drop: 0, share: 0 };
    const load = Math.max(0, crankPower(boat, id, point));
    const loaded = loadedEngineSpeed({ ratedPower, ratedSpeed, idleSpeed, droop: DROOP }, set, load);
    return loaded.kind === 'runs'
      ? { drop: loaded.drop / set, share: loaded.shareOfPower }
      : { drop: DROOP, share: load / loaded.availablePower };
  });
}

/** What an engine's alternators take at the crank [W]. */
function crankPower(boat: Boat, id: string, point: OperatingPoint): number {
  return point.alternators.reduce((sum, machine, i) => {
    const engine = boat.alternators[i]?.engine ?? '';
    const driven = engine === id || (engine === '' && boat.engines[0]?.id === id);
    return driven ? sum + machine.shaftPower + machine.beltHeat : sum;
  }, 0);
}

/** Load of every engine of the boat. `speed` where the engine runs [rad/s]: that of the point. */
export function engineLoads(boat: Boat, point: OperatingPoint): EngineLoad[] {
  return boat.engines.map(({ id, ratedPower, ratedSpeed, idleSpeed }) => {
    const power = crankPower(boat, id, point);
    const available = availablePower({ ratedPower, ratedSpeed, idleSpeed }, point.engineSpeed);
    return {
      id,
      power,
      shareOfPower: available > 0 ? power / available : 0,
      speedDrop: (DROOP * power * ratedSpeed) / ratedPower,
    };
  });
}
