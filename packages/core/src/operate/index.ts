export * from './condition.ts';
export { Operator, type Models } from './operator.ts';
export type { AlternatorPoint, BatteryPoint, LampPoint, OperatingPoint } from './point.ts';
export type { Probe } from './probe.ts';
export { readProbe } from './instrument.ts';
