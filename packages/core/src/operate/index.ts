export * from './condition.ts';
export { engineLoads, type EngineLoad } from './engine-load.ts';
export { Operator, type Models } from './operator.ts';
export type { AlternatorPoint, BatteryPoint, LampPoint, OperatingPoint } from './point.ts';
export type { Probe } from './probe.ts';
export { readProbe } from './instrument.ts';
export { chargeRun } from './run.ts';
export * from './run-plan.ts';
export { chargeRunOf } from './run-of.ts';
