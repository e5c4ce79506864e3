/** Engine as the alternator's drive: governor droop, what idling can support, share of power.
 *    n = n_set · (1 − δ · P / P_available(n_set))       P_available(n) = P_rated · n / n_rated
 *  n speed [rad/s]  δ droop, 0.05–0.10 for a mechanical governor, near 0 for an electronic one (textbook, from memory)
 *  P taken at the crank by the drive [W]. Constant torque over speed is assumed for what is available; a small diesel gives
 *  less than that near idle, so the share at idle is a lower bound.
 *  Leaves out: propeller load, turbocharging, the transient dip. */
import { requirePositive, requireWithin } from './guard.ts';

export interface EngineDrive {
  /** Rated power [W] at rated speed [rad/s]. */
  readonly ratedPower: number;
  readonly ratedSpeed: number;
  readonly idleSpeed: number;
  /** δ, 0–1. */
  readonly droop: number;
}

export type EngineSpeed =
  | { readonly kind: 'runs'; readonly speed: number; readonly drop: number; readonly shareOfPower: number }
  | { readonly kind: 'stalls'; readonly availablePower: number };

/** Power the engine can give at a speed [W]. */
export function availablePower(engine: Omit<EngineDrive, 'droop'>, speed: number): number {
  requirePositive('availablePower', 'ratedSpeed', engine.ratedSpeed, 'rad/s');
  return engine.ratedPower * Math.min(Math.max(speed / engine.ratedSpeed, 0), 1);
}

/** Speed with a load on, from the speed set without load. The drop is what is heard when the alternator starts to work. */
export function loadedEngineSpeed(engine: EngineDrive, setSpeed: number, load: number): EngineSpeed {
  requirePositive('loadedEngineSpeed', 'setSpeed', setSpeed, 'rad/s');
  requireWithin('loadedEngineSpeed', 'load', load, 'W', 0, 1e6);
  const available = availablePower(engine, setSpeed);
  if (load > available) return { kind: 'stalls', availablePower: available };
  const speed = setSpeed * (1 - (engine.droop * load) / available);
  return { kind: 'runs', speed, drop: setSpeed - speed, shareOfPower: load / available };
}

/** Share of the rated engine power that a load takes. */
export function shareOfRatedPower(engine: EngineDrive, load: number): number {
  requirePositive('shareOfRatedPower', 'ratedPower', engine.ratedPower, 'W');
  return load / engine.ratedPower;
}
